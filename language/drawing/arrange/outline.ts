/** Outlines of groups around what they hold. */
import type { Diagram, DiagramGroup } from '../diagram/diagram.js';
import { type Box, grid, joinBoxes, snapUp, type Point } from '../geometry.js';
import type { SceneGroup } from '../scene.js';
import type { Label } from '../shape.js';
import { fitText, textHeight, textWidth } from '../text-measure.js';
import type { Block } from './block.js';
import type { Passages } from './passage.js';

export const groupStyle = { size: 11, bold: true } as const;

export interface Padding {
  readonly top: number;
  readonly side: number;
}

/** Room around what a group holds: for its name above; in a cavity for the wires, too, that pass by what lies in it. */
export function paddingOf(group: DiagramGroup, passages: Passages): Padding {
  const lanes = Math.ceil((passages.through.get(group.id) ?? 0) * 0.8 + (passages.ending.get(group.id) ?? 0) / 3) * grid;
  return { top: 3 * grid + lanes, side: 2 * grid + lanes };
}

/** Width of a group's name as it is drawn. */
export function groupNameWidth(group: DiagramGroup): number {
  return Math.min(300, textWidth([group.name, ...group.notes].join(', '), groupStyle));
}

/** Around what each group holds, inner groups first; half a step off the grid, so that no wire runs on an outline. */
export function outlinesOf(
  diagram: Diagram,
  blocks: readonly Block[],
  places: ReadonlyMap<string, Point>,
  passages: Passages,
): Map<string, Box> {
  const outlines = new Map<string, Box>();
  const outline = (group: DiagramGroup): Box | undefined => {
    const { id } = group;
    const known = outlines.get(id);
    if (known) return known;
    const inside = [
      ...blocks.flatMap((block) => {
        const place = block.group === id ? places.get(block.id) : undefined;
        return place === undefined ? [] : [{ ...place, width: block.width, height: block.height }];
      }),
      ...diagram.groups.filter(({ parent }) => parent === id).flatMap((inner) => outline(inner) ?? []),
    ];
    if (inside.length === 0) {
      const place = places.get(id);
      if (place === undefined) return undefined;
      inside.push({ ...place, width: 4 * grid, height: 2 * grid });
    }
    const box = joinBoxes(inside);
    const { top, side } = paddingOf(group, passages);
    const half = grid / 2;
    const result = {
      x: box.x - side + half,
      y: box.y - top + half,
      width: Math.max(box.width, snapUp(groupNameWidth(group)) + 2 * grid) + 2 * side - grid,
      height: box.height + top + side - grid,
    };
    outlines.set(id, result);
    return result;
  };
  for (const group of diagram.groups) outline(group);
  return outlines;
}

export function sceneGroup(group: DiagramGroup, box: Box): SceneGroup {
  const role = group.kind === 'plate' && group.notes.includes('metal') ? 'plate-metal' : group.kind;
  const text = fitText([group.name, ...group.notes].join(', '), groupStyle, box.width - 16);
  const label: Label = {
    text,
    size: groupStyle.size,
    bold: true,
    role: 'group',
    upright: false,
    x: box.x + 10,
    y: box.y + 8,
    width: textWidth(text, groupStyle),
    height: textHeight(text, groupStyle),
  };
  return {
    id: group.id,
    says: `${group.kind} ${[group.name, ...group.notes].join(', ')}`,
    shapes: [{ kind: 'box', role, radius: 14, ...box }],
    labels: [label],
  };
}
