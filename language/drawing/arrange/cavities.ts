/** Cavities with channels between them: neighbours face each other, so that each channel is short and straight. */
import { channelWidth } from '../channels.js';
import type { Diagram } from '../diagram/diagram.js';
import { type Box, grid, grow, joinBoxes, overlaps, type Point, snap } from '../geometry.js';
import { joinPieces, movePiece, type Piece } from './piece.js';
import { byPlace } from './stations.js';

/** Room for a channel's text between two walls, and between cavities that have none. */
const gaps = { channel: 9 * grid, apart: 4 * grid } as const;
/** The shape of a page on its side. */
const pageShape = 1.4;

/** Joins the cavities that channels connect into one piece each; the others stay as they are. */
export function joinByChannels(diagram: Diagram, cavities: readonly Piece[]): Piece[] {
  const byId = new Map(cavities.map((piece) => [groupIdOf(piece), piece]));
  const channels = diagram.channels.filter(({ from, to }) => byId.has(from) && byId.has(to) && from !== to);
  const left = new Set([...cavities].sort((a, b) => b.symbols.length - a.symbols.length || byPlace(a.name, b.name)));
  const joined: Piece[] = [];
  for (const root of left) {
    left.delete(root);
    const placed = [root];
    for (let front = [root]; front.length > 0; ) {
      const [parent, ...rest] = front;
      front = rest;
      for (const { from, to } of channels) {
        const own = groupIdOf(parent as Piece);
        const child = byId.get(from === own ? to : to === own ? from : '');
        if (child === undefined || !left.has(child)) continue;
        left.delete(child);
        const there = nextTo(child, parent as Piece, placed, channelWidth(diagram, { from, to }));
        placed.push(there);
        front.push(there);
      }
    }
    joined.push(placed.length === 1 ? root : joinPieces(root.name, placed));
  }
  return joined;
}

/** The outermost group of a piece. */
function groupIdOf(piece: Piece): string {
  return [...piece.outlines.keys()].at(-1) ?? '';
}

/** Where a cavity faces another and all together come nearest to the shape of a page. */
function nextTo(piece: Piece, parent: Piece, placed: readonly Piece[], band: number): Piece {
  let best: { readonly cost: number; readonly piece: Piece } | undefined;
  for (const by of facings(piece.box, parent.box, band)) {
    const there = movePiece(piece, by);
    const others = placed.filter((other) => other !== parent);
    if (others.some(({ box }) => overlaps(grow(box, gaps.apart), there.box)) || overlaps(parent.box, there.box)) continue;
    const { width, height } = joinBoxes([...placed.map(({ box }) => box), there.box]);
    const cost = Math.max(width, height * pageShape) + 0.2 * (width + height);
    if (best === undefined || cost < best.cost - 1e-9) best = { cost, piece: there };
  }
  // Walled in on all sides: beyond everything.
  const around = joinBoxes(placed.map(({ box }) => box));
  return best?.piece ?? movePiece(piece, { x: snap(around.x + around.width + gaps.channel - piece.box.x), y: snap(around.y - piece.box.y) });
}

/** Moves that bring a box beside another with a span of at least the band in common: on each side flush above, in the middle, flush below. */
function facings(box: Box, parent: Box, band: number): Point[] {
  const ways: Point[] = [];
  const spans = (own: number, length: number, other: number, otherLength: number): number[] => {
    const least = Math.min(band, length, otherLength);
    return [
      other - own,
      other + otherLength / 2 - own - length / 2,
      other + otherLength - own - length,
      other + least - own - length,
      other + otherLength - least - own,
    ];
  };
  for (const y of spans(box.y, box.height, parent.y, parent.height)) {
    ways.push({ x: parent.x + parent.width + gaps.channel - box.x, y }, { x: parent.x - gaps.channel - box.width - box.x, y });
  }
  for (const x of spans(box.x, box.width, parent.x, parent.width)) {
    ways.push({ x, y: parent.y + parent.height + gaps.channel - box.y }, { x, y: parent.y - gaps.channel - box.height - box.y });
  }
  return ways.map(({ x, y }) => ({ x: snap(x), y: snap(y) }));
}
