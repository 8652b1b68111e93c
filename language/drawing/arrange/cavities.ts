/** Cavities with channels between them: neighbours face each other, so that each channel is short and straight. */
import { firstOf, pairwise } from '../../collections.js';
import { channelWidth } from '../channels.js';
import type { Diagram } from '../diagram/diagram.js';
import { type Box, grid, grow, joinBoxes, overlaps, type Point, snap } from '../geometry.js';
import { joinPieces, movePiece, type Piece } from './piece.js';
import { byPlace } from './stations.js';

/** Room for a channel's text between two walls, and between cavities that have none. */
const gaps = { channel: 9 * grid, apart: 4 * grid } as const;
/** The shape of a page on its side. */
const pageShape = 1.4;
/** Arrangements that are carried on from cavity to cavity. */
const mostWays = 60;

/** Joins the cavities that channels connect into one piece each; the others stay as they are. */
export function joinByChannels(diagram: Diagram, cavities: readonly Piece[]): Piece[] {
  const left = new Map(
    [...cavities]
      .sort((a, b) => b.symbols.length - a.symbols.length || byPlace(a.name, b.name))
      .map((piece) => [groupIdOf(piece), piece]),
  );
  const joined: Piece[] = [];
  for (const [id, root] of left) {
    left.delete(id);
    const placed = placeReached(diagram, root, left);
    joined.push(placed.length === 1 ? root : joinPieces(root.name, placed));
  }
  return joined;
}

/** A cavity with all that are reached from it, which are taken out of those left. */
function placeReached(diagram: Diagram, root: Piece, left: Map<string, Piece>): readonly Piece[] {
  let ways: Way[] = [{ placed: [root], cost: 0 }];
  const reached = [groupIdOf(root)];
  for (const parent of reached) {
    for (const channel of diagram.channels) {
      const { from, to } = channel;
      const id = from === parent ? to : to === parent ? from : '';
      const child = left.get(id);
      if (child === undefined) continue;
      left.delete(id);
      reached.push(id);
      const band = channelWidth(diagram, channel);
      ways = ways
        .flatMap(({ placed }) => waysOn(child, placed, parent, band))
        .sort((a, b) => a.cost - b.cost)
        .slice(0, mostWays);
    }
  }
  return firstOf(ways).placed;
}

interface Way {
  readonly placed: readonly Piece[];
  readonly cost: number;
}

/** The outermost group of a piece. */
function groupIdOf(piece: Piece): string {
  return [...piece.outlines.keys()].at(-1) ?? '';
}

/** Every place where a cavity faces its neighbour, with what all together then cost; beyond everything where it is walled in on all sides. */
function waysOn(piece: Piece, placed: readonly Piece[], parent: string, band: number): Way[] {
  const neighbour = placed.find((other) => groupIdOf(other) === parent) ?? firstOf(placed);
  const free = facings(piece.box, neighbour.box, band)
    .map((by) => movePiece(piece, by))
    .filter(({ box }) => placed.every((other) => !overlaps(other === neighbour ? other.box : grow(other.box, gaps.apart), box)));
  const around = joinBoxes(placed.map(({ box }) => box));
  const beyond = { x: snap(around.x + around.width + gaps.channel - piece.box.x), y: snap(around.y - piece.box.y) };
  const there = free.length > 0 ? free : [movePiece(piece, beyond)];
  return there.map((one) => {
    const all = [...placed, one];
    return { placed: all, cost: costOf(all) };
  });
}

/** How large a page they need, and whether pickups lie from the neck on the left to the bridge on the right. */
function costOf(pieces: readonly Piece[]): number {
  const { width, height } = joinBoxes(pieces.map(({ box }) => box));
  const pickups = pieces.filter(({ symbols }) => symbols.some(({ part }) => part.kind === 'pickup' || part.kind === 'humbucker'));
  const sorted = [...pickups].sort((a, b) => byPlace(a.name, b.name));
  const against = pairwise(sorted).filter(([a, b]) => a.centre.x >= b.centre.x).length;
  return Math.max(width, height * pageShape) + 0.2 * (width + height) + 1000 * against;
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
