/** Cavities with a channel between them are drawn level with each other, so that the channel runs straight. */
import type { Diagram } from '../diagram.js';
import { grid, grow, overlaps, snap, type Box, type Point } from '../geometry.js';
import type { LayoutResult } from '../layout.js';
import type { Block } from './block.js';
import { topGroup } from './passage.js';

/** Moves cavities up or down to the height of the one nearest to the jack, as far as nothing is in the way. */
export function alignCavities(
  diagram: Diagram,
  blocks: readonly Block[],
  places: LayoutResult,
  links: readonly { readonly from: string; readonly to: string }[],
  outlinesOf: (places: LayoutResult) => ReadonlyMap<string, Box>,
): LayoutResult {
  let current = places;
  // A link leads towards the jack, so the last in the chain stays and the others follow from it outwards.
  const waiting = [...links];
  const settled = new Set(links.map((link) => link.to).filter((to) => !links.some((link) => link.from === to)));
  for (let round = 0; round <= links.length; round++) {
    for (const { from, to } of waiting.filter((link) => settled.has(link.to) && !settled.has(link.from))) {
      settled.add(from);
      const outlines = outlinesOf(current);
      const [box, target] = [outlines.get(from), outlines.get(to)];
      if (!box || !target) continue;
      const dy = snap(target.y + target.height / 2 - box.y - box.height / 2);
      const shifted: Box = { ...box, y: box.y + dy };
      const isMine = (block: Block): boolean => topGroup(diagram, block.group) === from;
      const others = [
        ...[...outlines].filter(([id]) => topGroup(diagram, id) !== from).map(([, outline]) => outline),
        ...blocks
          .filter((block) => block.group === undefined)
          .map((block): Box => ({ ...current.get(block.id)!, width: block.width, height: block.height })),
      ];
      if (others.some((other) => overlaps(grow(shifted, 2 * grid), other))) continue;
      const move = ([id, at]: readonly [string, Point]): [string, Point] => {
        const block = blocks.find((candidate) => candidate.id === id);
        const isInside = block ? isMine(block) : topGroup(diagram, id) === from;
        return [id, isInside ? { x: at.x, y: at.y + dy } : at];
      };
      current = new Map([...current].map(move));
    }
  }
  return current;
}
