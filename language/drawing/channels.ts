/** Channels between cavities: a band from wall to wall, the opening through which wires pass, and where its text may stand. */
import { pairwise } from '../collections.js';
import type { Diagram, DiagramChannel } from './diagram/diagram.js';
import { type Box, boxAround, grid, grow, type Point, snapDown } from './geometry.js';
import type { Shape } from './shape.js';

export interface ChannelBand {
  readonly channel: DiagramChannel & { readonly says: string };
  readonly shapes: readonly Shape[];
  /** The bore, a box a leg: all that lies in it is in the channel. */
  readonly openings: readonly Box[];
  readonly spots: readonly Point[];
}

/** Lanes that a channel has at least and at most, on the grid. */
const lanes = { least: 4, most: 12 } as const;

/** A band is as wide as the lugs on its smaller side may need, however many wires there are now: a wire more must not move a wall. */
export function channelWidth(diagram: Diagram, { from, to }: Pick<DiagramChannel, 'from' | 'to'>): number {
  const side = Math.min(lugsBeyond(diagram, from, to), lugsBeyond(diagram, to, from));
  return Math.min(lanes.most, Math.max(lanes.least, Math.ceil(side * 0.6))) * grid;
}

/** Lugs in a cavity, and in those that are reached from it without going through another. */
function lugsBeyond(diagram: Diagram, cavity: string, without: string): number {
  const reached = new Set([cavity]);
  for (const one of reached) {
    for (const { from, to } of diagram.channels) {
      const other = from === one ? to : to === one ? from : undefined;
      if (other !== undefined && other !== without) reached.add(other);
    }
  }
  return diagram.parts
    .filter(({ group }) => reached.has(topGroup(diagram, group) ?? ''))
    .reduce((sum, { lugs }) => sum + lugs.length, 0);
}

/** The cavity that a group lies in, however deep. */
export function topGroup(diagram: Diagram, id: string | undefined): string | undefined {
  const parent = diagram.groups.find((group) => group.id === id)?.parent;
  return parent === undefined ? id : topGroup(diagram, parent);
}

/** A straight band where the cavities face each other, else one with a bend. */
export function channelBands(
  diagram: Diagram,
  outlines: ReadonlyMap<string, Box>,
  loads: ReadonlyMap<string, number>,
): ChannelBand[] {
  return diagram.channels.flatMap((channel) => {
    const [a, b] = [outlines.get(channel.from), outlines.get(channel.to)];
    if (!a || !b) return [];
    const wires = loads.get(channel.id) ?? 0;
    const width = channelWidth(diagram, channel);
    const path = axis(a, b, width);
    const texts = [...channel.texts, `${wires} ${wires === 1 ? 'wire' : 'wires'}`];
    const says = `channel from ${channel.from.slice(7)} to ${channel.to.slice(7)}, ${texts.join(', ')}`;
    return [
      {
        channel: { ...channel, texts, says },
        shapes: walls(path, width / 2),
        openings: legs(path, width / 2),
        spots: spotsOn(path, width / 2),
      },
    ];
  });
}

/** Where two spans overlap by as much as a band is wide, the middle of that; the band's edges lie between the lines of the grid. */
export function facing(a: readonly [number, number], b: readonly [number, number], width: number): number | undefined {
  const [from, to] = [Math.max(a[0], b[0]), Math.min(a[1], b[1])];
  if (to - from < width) return undefined;
  const edge = snapDown((from + to - width) / 2) + grid / 2;
  return (edge + width <= to ? edge : edge - grid) + width / 2;
}

/** The middle line from wall to wall. */
function axis(a: Box, b: Box, width: number): Point[] {
  const [left, right] = a.x <= b.x ? [a, b] : [b, a];
  const [upper, lower] = a.y <= b.y ? [a, b] : [b, a];
  const y = facing([a.y, a.y + a.height], [b.y, b.y + b.height], width);
  if (y !== undefined && left.x + left.width <= right.x) {
    return [
      { x: left.x + left.width, y },
      { x: right.x, y },
    ];
  }
  const x = facing([a.x, a.x + a.width], [b.x, b.x + b.width], width);
  if (x !== undefined && upper.y + upper.height <= lower.y) {
    return [
      { x, y: upper.y + upper.height },
      { x, y: lower.y },
    ];
  }
  const half = grid / 2;
  const middle = (start: number, length: number): number => snapDown(start + length / 2) + half;
  const from = { x: left.x + left.width, y: middle(left.y, left.height) };
  const to = { x: middle(right.x, right.width), y: left.y < right.y ? right.y : right.y + right.height };
  return [from, { x: to.x, y: from.y }, to];
}

function legs(path: readonly Point[], half: number): Box[] {
  return pairwise(path).map(([a, b]) => {
    const box = boxAround([a, b]);
    const isLevel = a.y === b.y;
    // A leg reaches to the outer edge of the bend; at the walls it ends with them.
    if (path.length > 2) return grow(box, half);
    return isLevel ? { ...box, y: box.y - half, height: 2 * half } : { ...box, x: box.x - half, width: 2 * half };
  });
}

/** Two lines beside the middle line. */
function walls(path: readonly Point[], half: number): Shape[] {
  return [-half, half].map((offset): Shape => {
    const normals = pairwise(path).map(([p, q]): Point => {
      const length = Math.hypot(q.x - p.x, q.y - p.y) || 1;
      return { x: -(q.y - p.y) / length, y: (q.x - p.x) / length };
    });
    const points = path.map((point, index) => {
      const [before, after] = [normals[index - 1], normals[index]];
      const one = before ?? after ?? { x: 0, y: 0 };
      const two = after ?? one;
      const both = one.x === two.x && one.y === two.y ? one : { x: one.x + two.x, y: one.y + two.y };
      return { x: point.x + both.x * offset, y: point.y + both.y * offset };
    });
    return { kind: 'path', role: 'channel', points, closed: false };
  });
}

/** Points beside the band and in it, those beside it first, since wires lie in it; then farther and farther out. */
function spotsOn(path: readonly Point[], half: number): Point[] {
  const spots: Point[] = [];
  const asides = [...steps(half + 22, half + 60), ...steps(0, half), ...steps(half + 60, half + 400)];
  for (const aside of asides) {
    pairwise(path).forEach(([a, b]) => {
      for (const share of [0.5, 0.4, 0.6, 0.3, 0.7]) {
        const at = { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
        for (const offset of aside === 0 ? [0] : [-aside, aside])
          spots.push(a.y === b.y ? { x: at.x, y: at.y + offset } : { x: at.x + offset, y: at.y });
      }
    });
  }
  return spots;
}

function steps(from: number, to: number): number[] {
  return Array.from({ length: Math.ceil((to - from) / 4) }, (_, index) => from + 4 * index);
}
