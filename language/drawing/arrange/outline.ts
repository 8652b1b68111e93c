/** Outlines of groups around what they hold. */
import { channelWidth } from '../channels.js';
import type { Diagram, DiagramGroup } from '../diagram/diagram.js';
import { type Box, grid, snapUp } from '../geometry.js';
import type { SceneGroup } from '../scene.js';
import type { Label } from '../shape.js';
import { fitText, textHeight, textWidth } from '../text-measure.js';

const groupStyle = { size: 11, bold: true } as const;
/** Room around what a group holds, for its name above and for wires. */
const padding = { plate: 2 * grid, cavity: 3 * grid, assembly: 1.5 * grid, name: 1.5 * grid } as const;

/** A group's outline around the box of what it holds, and the width that its name needs; half a step off the grid, so that no wire runs on it. */
export function outlineAround(
  diagram: Diagram,
  group: DiagramGroup,
  content: Box = { x: 0, y: 0, width: 4 * grid, height: 2 * grid },
): { readonly box: Box; readonly label: number } {
  const half = grid / 2;
  const label = Math.min(300, textWidth(nameOf(group), groupStyle)) + 20;
  // A wall is as long as the widest channel that opens in it.
  const channels = diagram.channels.filter(({ from, to }) => from === group.id || to === group.id);
  const opening = Math.max(0, ...channels.map((one) => channelWidth(diagram, one)));
  // What goes from channel to channel has to pass by what lies in the cavity.
  const side = snapUp(Math.max(padding[group.kind], channels.length > 1 ? opening : 0));
  const least = Math.max(snapUp(label), opening + 2 * grid);
  const width = Math.max(snapUp(content.width + 2 * side), least) - grid;
  const height = Math.max(snapUp(content.height + 2 * side + padding.name), opening === 0 ? 0 : opening + 2 * grid) - grid;
  const left = content.x - (width + grid - content.width) / 2;
  const box = {
    x: Math.floor(left / grid) * grid + half,
    y: Math.floor((content.y - side - padding.name) / grid) * grid + half,
    width,
    height,
  };
  return { box, label };
}

function nameOf(group: DiagramGroup): string {
  return [group.name, ...group.notes].join(', ');
}

export function sceneGroup(group: DiagramGroup, box: Box): SceneGroup {
  const role = group.kind === 'plate' && group.notes.includes('metal') ? 'plate-metal' : group.kind;
  const text = fitText(nameOf(group), groupStyle, box.width - 16);
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
    says: `${group.kind} ${nameOf(group)}`,
    shapes: [{ kind: 'box', role, radius: 14, ...box }],
    labels: [label],
  };
}
