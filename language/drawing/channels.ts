/** Channels between cavities: a band from wall to wall, the opening through which wires pass, and where its text may stand. */
import type { Diagram, DiagramChannel } from './diagram.js';
import { type Box, boxAround, grow, type Point } from './geometry.js';
import type { Shape } from './shape.js';

export interface ChannelBand {
  readonly channel: DiagramChannel & { readonly says: string };
  readonly shapes: readonly Shape[];
  readonly opening: Box;
  readonly spots: readonly Point[];
}

const half = 20;

/** A straight band where the cavities face each other, else one with a bend. */
export function channelBands(
  diagram: Diagram,
  outlines: ReadonlyMap<string, Box>,
  loads: ReadonlyMap<string, number>,
): ChannelBand[] {
  return diagram.channels.flatMap((channel) => {
    const [a, b] = [outlines.get(channel.from), outlines.get(channel.to)];
    if (!a || !b) return [];
    const path = axis(a, b);
    const wires = loads.get(channel.id) ?? 0;
    const texts = [...channel.texts, `${wires} ${wires === 1 ? 'wire' : 'wires'}`];
    const says = `channel from ${channel.from.slice(7)} to ${channel.to.slice(7)}, ${texts.join(', ')}`;
    const opening = grow(boxAround(path), half);
    return [{ channel: { ...channel, texts, says }, shapes: walls(path), opening, spots: spotsOn(path) }];
  });
}

/** The middle line from wall to wall. */
function axis(a: Box, b: Box): Point[] {
  const overlapY = [Math.max(a.y, b.y), Math.min(a.y + a.height, b.y + b.height)] as const;
  const overlapX = [Math.max(a.x, b.x), Math.min(a.x + a.width, b.x + b.width)] as const;
  const [left, right] = a.x <= b.x ? [a, b] : [b, a];
  const [upper, lower] = a.y <= b.y ? [a, b] : [b, a];
  if (overlapY[1] - overlapY[0] > 2 * half && left.x + left.width <= right.x) {
    const y = (overlapY[0] + overlapY[1]) / 2;
    return [
      { x: left.x + left.width, y },
      { x: right.x, y },
    ];
  }
  if (overlapX[1] - overlapX[0] > 2 * half && upper.y + upper.height <= lower.y) {
    const x = (overlapX[0] + overlapX[1]) / 2;
    return [
      { x, y: upper.y + upper.height },
      { x, y: lower.y },
    ];
  }
  const from = { x: left.x + left.width, y: left.y + left.height / 2 };
  const to = { x: right.x + right.width / 2, y: left.y < right.y ? right.y : right.y + right.height };
  return [from, { x: to.x, y: from.y }, to];
}

/** Two lines beside the middle line. */
function walls(path: readonly Point[]): Shape[] {
  return [-half, half].map((offset): Shape => {
    const points = path.map((point, index) => {
      const before = path[index - 1];
      const after = path[index + 1];
      const normal = (p: Point, q: Point): Point => {
        const length = Math.hypot(q.x - p.x, q.y - p.y) || 1;
        return { x: -(q.y - p.y) / length, y: (q.x - p.x) / length };
      };
      const one = before ? normal(before, point) : normal(point, after!);
      const two = after ? normal(point, after) : one;
      const both = one.x === two.x && one.y === two.y ? one : { x: one.x + two.x, y: one.y + two.y };
      return { x: point.x + both.x * offset, y: point.y + both.y * offset };
    });
    return { kind: 'path', role: 'channel', points, closed: false };
  });
}

/** Points in the band and on both sides of it, the middle first, then farther and farther out. */
function spotsOn(path: readonly Point[]): Point[] {
  const spots: Point[] = [];
  for (let aside = 0; aside <= 400; aside += 4) {
    path.slice(1).forEach((b, index) => {
      const a = path[index]!;
      for (const share of [0.5, 0.4, 0.6, 0.3, 0.7]) {
        const at = { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
        for (const offset of aside === 0 ? [0] : [-aside, aside])
          spots.push(a.y === b.y ? { x: at.x, y: at.y + offset } : { x: at.x + offset, y: at.y });
      }
    });
  }
  return spots;
}
