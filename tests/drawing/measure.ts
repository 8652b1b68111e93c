/** Figures of a drawing by which it is judged and compared: what crosses, bends, lies too near, and how far things went between two drawings. */
import type { Point } from '../../language/drawing/geometry.js';
import type { Scene } from '../../language/drawing/index.js';
import { labelsOnLabels, labelsOnWires, meet, sharedStretches, stretchesOf, type Stretch } from './judge.js';

export interface Figures {
  readonly crossings: number;
  readonly bends: number;
  /** Wires that run over a label, and labels that lie on each other. */
  readonly overLabels: number;
  readonly labelClashes: number;
  /** Pairs of wires that run beside each other nearer than a wire is wide, or on each other. */
  readonly tooNear: number;
  /** Of all wires together, drawing units. */
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly wires: number;
}

/** Width of a wire with its edges. */
const wireWidth = 4.4;

export function figuresOf(scene: Scene): Figures {
  return {
    crossings: crossingsOf(scene).length,
    bends: scene.wires.reduce((sum, wire) => sum + Math.max(0, wire.points.length - 2), 0),
    overLabels: labelsOnWires(scene).length,
    labelClashes: labelsOnLabels(scene).length,
    tooNear: sharedStretches(scene).length + nearPairs(scene).length,
    length: Math.round(scene.wires.reduce((sum, wire) => sum + lengthOf(wire.points), 0)),
    width: scene.width,
    height: scene.height,
    wires: scene.wires.length,
  };
}

/** The pairs of wires that cross, a pair a crossing. */
export function crossingsOf(scene: Scene): string[] {
  return pairs(scene).flatMap(([one, other]) => (meet(one, other) === 'cross' ? [`${one.wire} crosses ${other.wire}`] : []));
}

/** Stretches of two wires side by side with less than a wire's width of paper between their edges. */
export function nearPairs(scene: Scene): string[] {
  return pairs(scene).flatMap(([one, other]) => {
    const gap = gapBeside(one, other);
    return gap !== undefined && gap > 0.01 && gap < 2 * wireWidth ? [`${one.wire} runs ${gap} beside ${other.wire}`] : [];
  });
}

/** Share of the parts of both drawings that went farther than `step`. */
export function movedShare(before: Scene, after: Scene, step: number): number {
  const old = new Map(before.parts.map((part) => [part.id, part.box]));
  const both = after.parts.filter((part) => old.has(part.id));
  const moved = both.filter(({ id, box }) => Math.hypot(box.x - old.get(id)!.x, box.y - old.get(id)!.y) > step);
  return both.length === 0 ? 0 : moved.length / both.length;
}

/** Distance between two level or two upright stretches that pass each other for more than a joint's width. */
function gapBeside(one: Stretch, other: Stretch): number | undefined {
  for (const [along, across] of [
    ['x', 'y'],
    ['y', 'x'],
  ] as const) {
    if (one.a[across] !== one.b[across] || other.a[across] !== other.b[across]) continue;
    const start = Math.max(Math.min(one.a[along], one.b[along]), Math.min(other.a[along], other.b[along]));
    const end = Math.min(Math.max(one.a[along], one.b[along]), Math.max(other.a[along], other.b[along]));
    if (end - start > wireWidth) return Math.abs(one.a[across] - other.a[across]);
  }
  return undefined;
}

function pairs(scene: Scene): (readonly [Stretch, Stretch])[] {
  const all = scene.wires.flatMap((wire) => stretchesOf(wire.id, wire.points));
  return all.flatMap((one, index) =>
    all.slice(index + 1).flatMap((other) => (one.wire === other.wire ? [] : [[one, other] as const])),
  );
}

function lengthOf(points: readonly Point[]): number {
  return points.slice(1).reduce((sum, b, index) => sum + Math.hypot(b.x - points[index]!.x, b.y - points[index]!.y), 0);
}
