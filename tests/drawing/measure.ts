/** Figures of a drawing by which it is judged and compared: how long its wires are, what crosses, bends, lies too near, and how far things went between two drawings. */
import { type Box, grow, holds, joinBoxes, type Point } from '../../language/drawing/geometry.js';
import type { Scene } from '../../language/drawing/index.js';
import type { Shape } from '../../language/drawing/shape.js';
import { shapeBox } from '../../language/drawing/symbols/symbol.js';
import { boxOf, labelsOnLabels, labelsOnWires, lugsOnWires, meet, sharedStretches, stretchesOf, type Stretch } from './judge.js';
import { pairsNear } from './neighbours.js';

export interface Figures {
  readonly crossings: number;
  /** Crossings by less than 30°. */
  readonly sharpCrossings: number;
  readonly bends: number;
  /** Wires that run over a foreign lug; over a label or a pill; and labels that lie on each other. */
  readonly overLugs: number;
  readonly overLabels: number;
  readonly labelClashes: number;
  /** Pairs of wires that run beside each other nearer than a wire is wide, or on each other. */
  readonly tooNear: number;
  /** Of all wires together, drawing units. */
  readonly length: number;
  /** Length of a wire by the least that it needs: of the middle one, and of the worst. */
  readonly detour: { readonly middle: number; readonly worst: number };
  readonly width: number;
  readonly height: number;
  readonly wires: number;
}

/** Width of a wire with its edges, and the least from one wire's middle to the next: slanting lanes of a bundle are the nearest. */
const wireWidth = 4.4;
const leastPitch = 6.9;

export function figuresOf(scene: Scene): Figures {
  return {
    crossings: crossingsOf(scene).length,
    sharpCrossings: pairs(scene).filter(([one, other]) => meet(one, other) === 'cross' && angleOf(one, other) < 30).length,
    bends: scene.wires.reduce((sum, wire) => sum + Math.max(0, wire.points.length - 2), 0),
    overLugs: lugsOnWires(scene).length,
    overLabels: labelsOnWires(scene).length,
    labelClashes: labelsOnLabels(scene).length,
    tooNear: sharedStretches(scene).length + nearPairs(scene).length,
    length: Math.round(scene.wires.reduce((sum, wire) => sum + lengthOf(wire.points), 0)),
    detour: detourOf(scene),
    width: scene.width,
    height: scene.height,
    wires: scene.wires.length,
  };
}

/** The pairs of wires that cross, a pair a crossing. */
export function crossingsOf(scene: Scene): string[] {
  return pairs(scene).flatMap(([one, other]) => (meet(one, other) === 'cross' ? [`${one.wire} crosses ${other.wire}`] : []));
}

/** Stretches of two wires side by side with hardly any paper between their edges. */
export function nearPairs(scene: Scene): string[] {
  return pairs(scene).flatMap(([one, other]) => {
    const gap = gapBeside(one, other);
    return gap !== undefined && gap > 0.01 && gap < leastPitch ? [`${one.wire} runs ${gap.toFixed(1)} beside ${other.wire}`] : [];
  });
}

/**
 * Length of each wire by the least that it needs: the straight distance between its ends, and for a wire that goes through channels the way along
 * their middle lines, since no wire goes straight through the wood between two cavities, however near its ends lie to each other.
 */
export function detoursOf(scene: Scene): number[] {
  return scene.wires
    .filter(({ kind }) => kind === 'wire')
    .map(({ points }) => lengthOf(points) / Math.max(1, leastLength(scene, points[0]!, points.at(-1)!)));
}

/** Straight where both ends lie in one cavity or no channel joins theirs; else by the shortest chain of channels, each passed at most once. */
function leastLength(scene: Scene, from: Point, to: Point): number {
  const cavities = scene.groups.filter(({ id }) => id.startsWith('cavity:')).map(({ shapes }) => joinBoxes(shapes.map(shapeBox)));
  const bores = scene.channels.map(({ shapes }) => middleLine(shapes));
  const cavityAt = (point: Point): Box | undefined => cavities.find((box) => holds(grow(box, 1), point));
  const end = cavityAt(to);
  const onward = (at: Point, passed: readonly (readonly Point[])[]): number => {
    const here = cavityAt(at);
    if (here === undefined || here === end) return lengthOf([at, to]);
    const ways = bores
      .filter((bore) => !passed.includes(bore))
      .flatMap((bore) => [bore, [...bore].reverse()].map((line) => ({ bore, line })))
      .filter(({ line }) => cavityAt(line[0]!) === here)
      .map(({ bore, line }) => lengthOf([at, ...line]) + onward(line.at(-1)!, [...passed, bore]));
    return Math.min(Infinity, ...ways);
  };
  const along = end === undefined ? Infinity : onward(from, []);
  return Number.isFinite(along) ? along : lengthOf([from, to]);
}

/** From cavity to cavity halfway between the two walls of a channel. */
function middleLine(shapes: readonly Shape[]): Point[] {
  const [one = [], other = []] = shapes.flatMap((shape) => (shape.kind === 'path' ? [shape.points] : []));
  return one.map(({ x, y }, index) => ({ x: (x + other[index]!.x) / 2, y: (y + other[index]!.y) / 2 }));
}

/** Pairs of pickups of which the one nearer to the neck by its name stands further right. */
export function pickupsOutOfOrder(scene: Scene): number {
  const seats = ['neck', 'middle', 'bridge'];
  const seated = scene.parts.flatMap(({ name, type, box }) => {
    const words = name.split('-');
    const seat = seats.findIndex((word) => words.includes(word));
    return /coil|humbucker/.test(type) && seat >= 0 ? [{ seat, x: box.x }] : [];
  });
  return seated.flatMap((a) => seated.filter((b) => a.seat < b.seat && a.x >= b.x)).length;
}

/** Whether some jack has no other part of several lugs between it and one side of the sheet; true where there is no jack. */
export function isJackAtEdge(scene: Scene): boolean {
  const jacks = scene.parts.filter(({ type }) => type.startsWith('jack'));
  const others = scene.parts.filter((part) => !jacks.includes(part) && part.lugs.length > 2);
  const isFree = ({ box }: Scene['parts'][number]): boolean => {
    const level = others.filter((other) => other.box.y < box.y + box.height && box.y < other.box.y + other.box.height);
    const upright = others.filter((other) => other.box.x < box.x + box.width && box.x < other.box.x + other.box.width);
    return (
      level.every((other) => other.box.x < box.x) ||
      level.every((other) => other.box.x > box.x) ||
      upright.every((other) => other.box.y < box.y) ||
      upright.every((other) => other.box.y > box.y)
    );
  };
  return jacks.length === 0 || jacks.some(isFree);
}

function detourOf(scene: Scene): Figures['detour'] {
  const ratios = detoursOf(scene).sort((a, b) => a - b);
  const at = (index: number): number => Math.round(100 * (ratios[index] ?? 1)) / 100;
  return { middle: at(Math.floor(ratios.length / 2)), worst: at(ratios.length - 1) };
}

/** The smaller angle between two stretches, degrees. */
function angleOf(one: Stretch, other: Stretch): number {
  const [p, q] = [one, other].map(({ a, b }) => Math.atan2(b.y - a.y, b.x - a.x)) as [number, number];
  const turn = (Math.abs(p - q) * 180) / Math.PI;
  return Math.min(turn % 180, 180 - (turn % 180));
}

/** Share of the parts of both drawings that went farther than `step`. */
export function movedShare(before: Scene, after: Scene, step: number): number {
  const old = new Map(before.parts.map((part) => [part.id, part.box]));
  const both = after.parts.filter((part) => old.has(part.id));
  const moved = both.filter(({ id, box }) => Math.hypot(box.x - old.get(id)!.x, box.y - old.get(id)!.y) > step);
  return both.length === 0 ? 0 : moved.length / both.length;
}

/** Distance between two parallel stretches that pass each other for more than a joint's width. */
function gapBeside(one: Stretch, other: Stretch): number | undefined {
  const length = lengthOf([one.a, one.b]);
  if (length === 0 || angleOf(one, other) > 0.1) return undefined;
  const [x, y] = [(one.b.x - one.a.x) / length, (one.b.y - one.a.y) / length];
  const ends = [other.a, other.b].map((p) => (p.x - one.a.x) * x + (p.y - one.a.y) * y);
  const passed = Math.min(length, Math.max(...ends)) - Math.max(0, Math.min(...ends));
  return passed > wireWidth ? Math.abs((other.a.x - one.a.x) * y - (other.a.y - one.a.y) * x) : undefined;
}

/** The stretches of two wires that cross or lie near each other. */
function pairs(scene: Scene): (readonly [Stretch, Stretch])[] {
  const all = scene.wires.flatMap((wire) => stretchesOf(wire.id, wire.points));
  return [...pairsNear(all, boxOf, leastPitch)].filter(([one, other]) => one.wire !== other.wire);
}

function lengthOf(points: readonly Point[]): number {
  return points.slice(1).reduce((sum, b, index) => sum + Math.hypot(b.x - points[index]!.x, b.y - points[index]!.y), 0);
}
