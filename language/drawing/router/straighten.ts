/** Pulls wires straight where nothing is in the way: chains from case to case, jumpers, short wires, and small jogs of the long ones. */
import { firstOf, lastOf, pairwise } from '../../collections.js';
import { BoxIndex, boxesAlong, indexOf } from '../box-index.js';
import { type Box, boxAround, crosses, grid, grow, holds, meets, moved, overlaps, type Point, wireReach } from '../geometry.js';
import { placedPads, type PlacedSymbol } from '../placed.js';
import { bendsOf, curveOf, type Bend } from '../wire-path.js';
import type { Frame } from './field.js';
import { prices, type Field } from './grid-field.js';

export interface Pull {
  readonly id: string;
  readonly points: readonly Point[];
  /** True where it may become one straight line of any length. */
  readonly isTaut: boolean;
  /** True where it stays in cavities and channels. */
  readonly isBound: boolean;
  /** Not to be moved, for something hangs on it. */
  readonly isFixed: boolean;
}

/** Up to this length every wire may become one straight line. */
const shortWire = 14 * grid;
/** The longest jog that is smoothed. */
const longestJog = 12 * grid;
/** From one wire's middle line to another's, and from a wire to a lug's edge. */
const apart = 7;
const lugClearance = 2.7;
/** From a wire's middle line to a letter. */
const paper = 2.5;
/** How near to its corner a narrow bend is held: the first of these with which it is clear of letters, or else the first. */
const heldAt = [0.8 * grid, 0.5 * grid, 0.3 * grid] as const;
/** Sharper than this two wires neither cross nor part from one joint. */
const leastAngle = Math.PI / 6;

/** Corners by id of wire. */
export function straighten(
  pulls: readonly Pull[],
  placed: readonly PlacedSymbol[],
  labels: readonly Box[],
  frame: Frame,
  field: Field,
): ReadonlyMap<string, readonly Point[]> {
  const lines = new Map(pulls.map(({ id, points }) => [id, points]));
  const obstacles = obstaclesOf(placed, labels, pulls);
  const strokes = new BoxIndex<Stroke>();
  const add = (id: string, points: readonly Point[]): void => {
    for (const ends of pairwise(points)) {
      const stroke = { id, points, ends, box: grow(boxAround(ends), 0.1) };
      for (const box of boxesAlong(...ends, 0.1)) strokes.add(stroke, box);
    }
  };
  for (const { id, points } of pulls) add(id, points);
  for (const pull of pulls) {
    if (pull.isFixed || pull.points.length < 3) continue;
    // Where another wire has been pulled straight, its old strokes count no more.
    const isOther = ({ id, points }: Stroke): boolean => id !== pull.id && lines.get(id) === points;
    const points = pulled(pull, { frame, field, obstacles, strokes, isOther });
    if (points === pull.points) continue;
    lines.set(pull.id, points);
    add(pull.id, points);
  }
  return new Map([...lines].map(([id, points]) => [id, tightened(points, obstacles)]));
}

interface Beside {
  readonly frame: Frame;
  readonly field: Field;
  readonly obstacles: Obstacles;
  readonly strokes: BoxIndex<Stroke>;
  readonly isOther: (stroke: Stroke) => boolean;
}

/** A straight stretch of a wire that had these corners. */
interface Stroke {
  readonly id: string;
  readonly points: readonly Point[];
  readonly ends: readonly [Point, Point];
  readonly box: Box;
}

interface Obstacles {
  readonly boxes: BoxIndex<Box>;
  readonly lugs: BoxIndex<Lug>;
}

interface Lug extends Point {
  /** Nearer than this to its middle no foreign wire comes. */
  readonly least: number;
}

function pulled({ points, isTaut, isBound }: Pull, beside: Beside): readonly Point[] {
  const [first, last] = [firstOf(points), lastOf(points)];
  const isWhole = isTaut || distance(first, last) <= shortWire;
  if (isWhole && isBetter(points, beside, isBound)) return [first, last];
  let line = points;
  for (let from = 1; from < line.length - 3; from++) {
    for (let to = Math.min(line.length - 2, from + 5); to >= from + 2; to--) {
      const jog = line.slice(from, to + 1);
      if (lengthOf(jog) > longestJog || !isBetter(jog, beside, isBound)) continue;
      line = [...line.slice(0, from + 1), ...line.slice(to)];
      break;
    }
  }
  return line;
}

/** Whether the straight line from the first corner to the last touches nothing and passes over no more than the corners' own way. */
function isBetter(corners: readonly Point[], beside: Beside, isBound: boolean): boolean {
  const [a, b] = [firstOf(corners), lastOf(corners)];
  return (
    isClear(a, b, beside.obstacles, [a, b]) &&
    isApart(a, b, corners, beside) &&
    (!isBound || isHollow(a, b, beside)) &&
    priceOf([a, b], beside) <= priceOf(corners, beside)
  );
}

/** Where one of the `ends` lies in the paper around a box, that is no obstacle, for the wire begins there; the box itself always is. It may come so much `nearer` to a box. */
function isClear(a: Point, b: Point, { boxes, lugs }: Obstacles, ends: readonly Point[], nearer = 0): boolean {
  const around = boxAround([a, b]);
  return !(
    boxes.some(
      around,
      (box) => meets(a, b, box, -nearer) && (meets(a, b, box, -paper) || !ends.some((end) => holds(box, end))),
    ) || lugs.some(around, (lug) => distance(lug, a) >= 1 && distance(lug, b) >= 1 && toStretch(lug, a, b) < lug.least)
  );
}

function isApart(a: Point, b: Point, corners: readonly Point[], { strokes, isOther }: Beside): boolean {
  const own = pairwise(corners);
  const around = grow(boxAround([a, b]), apart);
  const isTooNear = (c: Point, d: Point): boolean => {
    const shared = [c, d].find((point) => distance(point, a) < 1 || distance(point, b) < 1);
    if (shared) return angleBetween(a, b, c, d) < leastAngle && toStretch(shared === c ? d : c, a, b) < apart;
    if (crosses(a, b, c, d)) return angleBetween(a, b, c, d) < leastAngle || !own.some(([p, q]) => crosses(p, q, c, d));
    return gapBetween(a, b, c, d) < apart;
  };
  return !strokes.some(around, (stroke) => overlaps(stroke.box, around) && isOther(stroke) && isTooNear(...stroke.ends));
}

/** True where all of a stretch lies in cavities and channels, with half a grid step to spare. */
function isHollow(a: Point, b: Point, { frame, field }: Beside): boolean {
  const half = 0.49 * grid;
  const steps = Math.ceil((2 * distance(a, b)) / grid);
  for (let step = 1; step < steps; step++) {
    const [x, y] = [a.x + ((b.x - a.x) * step) / steps, a.y + ((b.y - a.y) * step) / steps];
    for (const [dx, dy] of [
      [-half, -half],
      [half, -half],
      [-half, half],
      [half, half],
    ] as const)
      if (field.wood[frame.cellAt({ x: x + dx, y: y + dy })] === 1) return false;
  }
  return true;
}

/** Length, and what lies under it, in grid steps of the search. */
function priceOf(corners: readonly Point[], { frame, field }: Beside): number {
  let sum = (prices.step * lengthOf(corners)) / grid;
  for (const [a, b] of pairwise(corners)) {
    const steps = Math.ceil(distance(a, b) / grid);
    for (let step = 1; step < steps; step++) {
      const at = { x: a.x + ((b.x - a.x) * step) / steps, y: a.y + ((b.y - a.y) * step) / steps };
      sum += field.surcharge[frame.cellAt(at)] ?? 0;
    }
  }
  return sum;
}

function obstaclesOf(placed: readonly PlacedSymbol[], labels: readonly Box[], pulls: readonly Pull[]): Obstacles {
  const texts = placed.flatMap((symbol) => symbol.symbol.labels.map((label) => moved<Box>(label, symbol)));
  const lugs = placed.flatMap((symbol) => placedPads(symbol).filter(({ look }) => look === 'lug'));
  const joints = pulls.flatMap(({ points }) => [firstOf(points), lastOf(points)].map(({ x, y }) => ({ x, y, radius: 5 })));
  const found = new BoxIndex<Lug>();
  for (const { x, y, radius } of [...lugs, ...joints]) {
    const least = radius + lugClearance;
    found.add({ x, y, least }, grow({ x, y, width: 0, height: 0 }, least));
  }
  return { boxes: indexOf([...texts, ...labels].map((box) => grow<Box>(box, paper))), lugs: found };
}

/** With a narrower bend wherever the curve would cut across something that its corner goes around. */
function tightened(points: readonly Point[], obstacles: Obstacles): readonly Point[] {
  const ends = [firstOf(points), lastOf(points)];
  const isFree = (bend: Bend, around = obstacles, nearer = 0): boolean =>
    pairwise(curveOf(bend)).every(([a, b]) => isClear(a, b, around, ends, nearer));
  const letters = { boxes: obstacles.boxes, lugs: new BoxIndex<Lug>() };
  const cut = new Set(
    bendsOf(points)
      .filter((bend) => !isFree(bend))
      .map(({ corner }) => corner),
  );
  if (cut.size === 0) return points;
  return points.flatMap((corner, index) => {
    const [before, after] = [points[index - 1], points[index + 1]];
    if (!before || !after || !cut.has(corner)) return [corner];
    const held = (at: number): readonly Point[] => [heldBy(corner, before, at), corner, heldBy(corner, after, at)];
    return held(heldAt.find((at) => bendsOf(held(at)).every((bend) => isFree(bend, letters, paper - wireReach))) ?? heldAt[0]);
  });
}

/** Such a corner is held by two points beside it: a bend takes no more than half of the stretch to the next point. */
function heldBy(corner: Point, other: Point, at: number): Point {
  const share = Math.min(0.45, at / distance(corner, other));
  return { x: corner.x + (other.x - corner.x) * share, y: corner.y + (other.y - corner.y) * share };
}

function lengthOf(points: readonly Point[]): number {
  return pairwise(points).reduce((sum, [a, b]) => sum + distance(a, b), 0);
}

function distance(a: Point, b: Point): number {
  return Math.sqrt((b.x - a.x) ** 2 + (b.y - a.y) ** 2);
}

/** The smaller angle between two lines. */
export function angleBetween(a: Point, b: Point, c: Point, d: Point): number {
  const [p, q] = [Math.atan2(b.y - a.y, b.x - a.x), Math.atan2(d.y - c.y, d.x - c.x)];
  const turn = Math.abs(p - q) % Math.PI;
  return Math.min(turn, Math.PI - turn);
}

function gapBetween(a: Point, b: Point, c: Point, d: Point): number {
  return Math.min(toStretch(a, c, d), toStretch(b, c, d), toStretch(c, a, b), toStretch(d, a, b));
}

function toStretch(point: Point, a: Point, b: Point): number {
  const length = distance(a, b);
  if (length === 0) return distance(point, a);
  const share = ((point.x - a.x) * (b.x - a.x) + (point.y - a.y) * (b.y - a.y)) / length ** 2;
  const t = Math.max(0, Math.min(1, share));
  return distance(point, { x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t });
}
