/** Single points: the star, the bridge, a splice, the lug of a plate or of an assembly. */
import type { DiagramPart } from '../diagram/diagram.js';
import {
  type Box,
  east,
  grid,
  type Heading,
  north,
  type Point,
  snap,
  snapDown,
  snapUp,
  south,
  stepOf,
  turned,
  west,
} from '../geometry.js';
import { type Access, createSymbolBuilder, lugNameWidth, padRadius, type Symbol } from './symbol.js';

/** The ring of a star has a tag for each wire, as many as such a ring has holes: each access is one. */
const tags = 12;
const ring = 22;

/** A ring with tags all round. */
export function starSymbol(part: DiagramPart): Symbol {
  const builder = createSymbolBuilder(0);
  const [lug] = part.lugs;
  const accesses: Access[] = [];
  for (let tag = 0; tag < tags; tag++) {
    const angle = ((tag + 0.5) / tags) * 2 * Math.PI - Math.PI / 2;
    const at = (distance: number): Point => ({ x: Math.cos(angle) * distance, y: Math.sin(angle) * distance });
    const end = at(4 * grid);
    builder.leaf(at(ring - 4), end, 11);
    builder.circle('hole', end.x, end.y, 3);
    const beyond = at(5.4 * grid);
    const heading = headingFrom(end);
    accesses.push({ x: snap(beyond.x), y: snap(beyond.y), heading, landing: end, cost: 0 });
  }
  builder.circle('leaf', 0, 0, ring);
  builder.circle('hole', 0, 0, 9);
  builder.cover(0, 0, 2 * ring, 2 * ring);
  if (lug) builder.pad(lug.id, { x: 0, y: 0 }, accesses, 'spot', 4 * grid);
  builder.caption(part, 'above');
  return builder.finish();
}

/** A bridge plate of 80 × 15 mm with its saddles and the one lead under it. */
export function bridgeSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const [lug] = part.lugs;
  const [width, length] = [48, 256];
  builder.box('metal', { x: 0, y: 0, width, height: length, radius: 4 });
  builder.cover(0, 0, width, length);
  for (let saddle = 0; saddle < 6; saddle++)
    builder.box('pole', { x: 0, y: (saddle - 2.5) * 34 - 8, width: 26, height: 14, radius: 3 });
  if (lug) builder.lug(lug, 0, 12 * grid, south);
  builder.caption(part, 'above');
  return builder.finish();
}

/** A lug with its name beside it. */
export function pointSymbol(part: DiagramPart): Symbol {
  const builder = createSymbolBuilder(0);
  const [lug] = part.lugs;
  builder.circle('terminal', 0, 0, padRadius + 3);
  if (lug) builder.lug(lug, 0, 0, south, { also: [north] });
  builder.caption(part, 'right');
  return builder.finish();
}

const lineHeight = 14;
/** From a pill's corner to where a stub may end at its edge, and from its edge to where the stub turns: beyond what letters keep off. */
const rounding = 6;
const clear = 4;

/** A pill with a line for each thing it says, hung like a flag to the side that `turn` says: east, south, west, north. */
export function markSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(0);
  const width = Math.max(...part.values.map((line) => lugNameWidth(line))) + 10;
  const height = part.values.length * lineHeight + 2;
  const [x, y] = (
    [
      [width / 2, 0],
      [0, height / 2],
      [-width / 2, 0],
      [0, -height / 2],
    ] as const
  )[turn % 4] ?? [0, 0];
  builder.box('pill', { x, y, width, height, radius: Math.min(8, height / 2) });
  const heading = turned(west, turn);
  const step = stepOf(heading);
  const [lug] = part.lugs;
  const access = { x: step.x * grid, y: step.y * grid, heading, landing: { x: 0, y: 0 }, cost: 0 };
  const others = accessesAround({ x: x - width / 2, y: y - height / 2, width, height });
  if (lug) builder.pad(lug.id, { x: 0, y: 0 }, [access, ...others.filter((other) => other.heading !== heading)], 'none', 1);
  part.values.forEach((line, index) => builder.around(line, x, y + (index - (part.values.length - 1) / 2) * lineHeight));
  return builder.finish();
}

/** From all sides to the edge of a pill, for a stub that is closed out of the side that is meant for it. */
function accessesAround({ x, y, width, height }: Box): Access[] {
  const [right, bottom] = [x + width, y + height];
  const along = (from: number, to: number): number[] => {
    const first = snapUp(from + rounding);
    return Array.from(
      { length: Math.max(0, Math.floor((to - rounding - first) / grid) + 1) },
      (_, index) => first + index * grid,
    );
  };
  const access = (heading: Heading, landing: Point, at: Point): Access => ({ ...at, heading, landing, cost: 1 });
  const [above, below] = [snapDown(y - clear), snapUp(bottom + clear)];
  const [before, beyond] = [snapDown(x - clear), snapUp(right + clear)];
  return [
    ...along(x, right).flatMap((on) => [
      access(north, { x: on, y }, { x: on, y: above }),
      access(south, { x: on, y: bottom }, { x: on, y: below }),
    ]),
    ...along(y, bottom).flatMap((on) => [
      access(west, { x, y: on }, { x: before, y: on }),
      access(east, { x: right, y: on }, { x: beyond, y: on }),
    ]),
  ];
}

export function headingFrom({ x, y }: Point): Heading {
  if (Math.abs(x) >= Math.abs(y)) return x < 0 ? west : east;
  return y < 0 ? north : south;
}
