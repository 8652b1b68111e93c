/** Lacing: a band across a bundle wherever two or more of its wires run side by side for a good stretch. */
import { append, pairwise } from '../../collections.js';
import { boxAround, type Box, grid, grow, meets, overlaps, type Point } from '../geometry.js';
import type { RoutedWire } from '../router/wires.js';
import type { SceneLacing } from '../scene.js';

/** The shortest stretch side by side that is laced, and from one band of it to the next. */
const shortest = 6 * grid;
const pitch = 15 * grid;
/** A band stands out so far beyond the outer wires. */
const overhang = 5;
/** Wires of a bundle lie on neighbouring lines of the grid. */
const nearest = grid + 1;

interface Stretch {
  readonly wire: string;
  readonly a: Point;
  readonly b: Point;
}

/** `taken` is what a band may not cover. */
export function laceBundles(
  wires: readonly RoutedWire[],
  bundleOf: (id: string) => number | undefined,
  taken: readonly Box[],
): SceneLacing[] {
  const bundles = new Map<number, Stretch[]>();
  const all = wires.flatMap(({ run, points }) => pairwise(points).map(([a, b]): Stretch => ({ wire: run.id, a, b })));
  for (const stretch of all) {
    const bundle = bundleOf(stretch.wire);
    if (bundle !== undefined) append(bundles, bundle, stretch);
  }
  return [...bundles].flatMap(([bundle, own]) => {
    const inside = new Set(own.map(({ wire }) => wire));
    const others = all.filter(({ wire }) => !inside.has(wire));
    const bands: Band[] = [];
    for (const stretch of [...own].sort((p, q) => lengthOf(q) - lengthOf(p) || (p.wire < q.wire ? -1 : 1))) {
      for (const band of bandsAcross(stretch, own)) {
        const box = grow(boxAround(band.points), 3);
        const isFree =
          !taken.some((other) => overlaps(other, box)) &&
          !others.some(({ a, b }) => meets(a, b, box)) &&
          !bands.some((other) => Math.hypot(other.middle.x - band.middle.x, other.middle.y - band.middle.y) < shortest);
        if (isFree) bands.push(band);
      }
    }
    return bands.map(({ points }, index): SceneLacing => ({ id: `lacing:${bundle}.${index + 1}`, points }));
  });
}

interface Band {
  readonly middle: Point;
  readonly points: readonly [Point, Point];
}

/** Bands at even distances along a stretch, across all wires of the bundle that lie beside it there. */
function bandsAcross(stretch: Stretch, own: readonly Stretch[]): Band[] {
  const length = lengthOf(stretch);
  if (length < shortest) return [];
  const along = { x: (stretch.b.x - stretch.a.x) / length, y: (stretch.b.y - stretch.a.y) / length };
  const beside = own.flatMap((other): { from: number; to: number; aside: number }[] => {
    const ends = [other.a, other.b].map(({ x, y }) => {
      const [dx, dy] = [x - stretch.a.x, y - stretch.a.y];
      return { on: dx * along.x + dy * along.y, aside: dy * along.x - dx * along.y };
    });
    const [p, q] = ends;
    if (!p || !q || Math.abs(p.aside - q.aside) > 0.5) return [];
    return [{ from: Math.min(p.on, q.on), to: Math.max(p.on, q.on), aside: p.aside }];
  });
  const count = Math.max(1, Math.round(length / pitch));
  return Array.from({ length: count }, (_, index) => ((index + 0.5) * length) / count).flatMap((on) => {
    const lanes = beside
      .filter(({ from, to }) => on - from >= shortest / 2 - 1 && to - on >= shortest / 2 - 1)
      .map(({ aside }) => aside)
      .sort((a, b) => a - b);
    const [least, most] = neighboursOf(lanes);
    if (most - least < 1) return [];
    const at = (aside: number): Point => ({
      x: stretch.a.x + along.x * on - along.y * aside,
      y: stretch.a.y + along.y * on + along.x * aside,
    });
    return [{ middle: at((least + most) / 2), points: [at(least - overhang), at(most + overhang)] as const }];
  });
}

/** The outermost lanes that are reached from the middle one step by step. */
function neighboursOf(lanes: readonly number[]): readonly [number, number] {
  let [least, most] = [0, 0];
  for (const lane of lanes) if (lane > most && lane - most <= nearest) most = lane;
  for (const lane of [...lanes].reverse()) if (lane < least && least - lane <= nearest) least = lane;
  return [least, most];
}

function lengthOf({ a, b }: Stretch): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}
