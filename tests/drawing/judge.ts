/** The geometry by which drawings are judged: what lies on what, and how wires meet. */
import { type Box, boxAround, grid, grow, type Point } from '../../language/drawing/geometry.js';
import type { SceneWire } from '../../language/drawing/scene.js';
import { flattened, labelBox, sceneLabels, type Scene } from '../../language/drawing/index.js';
import { neighboursIn, pairsNear } from './neighbours.js';

/** What is wrong with a scene's geometry, a line each; empty for a drawing that can be read. */
export function offences(scene: Scene): string[] {
  return [...labelsOnWires(scene), ...lugsOnWires(scene), ...labelsOnLabels(scene), ...sharedStretches(scene), ...outside(scene)];
}

export interface Stretch {
  readonly wire: string;
  readonly a: Point;
  readonly b: Point;
}

/** Half the width of what is painted. */
const halfWidth = { wire: 2.2, lead: 1.6, screen: 1.6, ground: 2.2, solder: 4 } as const;

/** Half the width of the widest, with some room. */
const widest = halfWidth.solder + 1;

/** Each painted wire in straight stretches. */
function strokesOf(scene: Scene): (Stretch & { readonly half: number })[] {
  return scene.wires.flatMap((wire) =>
    stretchesOf(wire.id, flattened(wire.points)).map((stretch) => ({ ...stretch, half: halfWidth[wire.kind] })),
  );
}

/** Labels with the boxes that they fill: of a wire's label, the pill around it. */
function filled(scene: Scene): { readonly id: string; readonly text: string; readonly box: Box }[] {
  return sceneLabels(scene).map(({ id, label }) => ({ id, text: label.text, box: labelBox(label) }));
}

/** Wires that run over a label or under the pill of another wire. */
export function labelsOnWires(scene: Scene): string[] {
  const near = neighboursIn(strokesOf(scene), boxOf);
  const found = filled(scene).flatMap(({ id, text, box }) =>
    near(grow(box, widest))
      .filter((stroke) => stroke.wire !== id && crosses(stroke, box, stroke.half))
      .map((stroke) => `${stroke.wire} runs over “${text}” of ${id}`),
  );
  return [...new Set(found)];
}

/** Wires that run over a lug to which they are not soldered. */
export function lugsOnWires(scene: Scene): string[] {
  const ends = new Map(scene.wires.map((wire) => [wire.id, [wire.from, wire.to]]));
  const near = neighboursIn(strokesOf(scene), boxOf);
  const lugs = scene.parts.flatMap((part) => part.lugs.filter(({ look }) => look === 'lug'));
  const found = lugs.flatMap((lug) =>
    near(grow({ x: lug.x, y: lug.y, width: 0, height: 0 }, lug.radius + widest))
      .filter(({ wire, a, b, half }) => !ends.get(wire)!.includes(lug.id) && distanceTo(lug, a, b) < lug.radius + half)
      .map(({ wire }) => `${wire} runs over ${lug.id}`),
  );
  return [...new Set(found)];
}

export function labelsOnLabels(scene: Scene): string[] {
  return [...pairsNear(filled(scene), ({ box }) => box, 0)]
    .filter(([one, other]) => overlap(one.box, other.box))
    .map(([one, other]) => `“${one.text}” of ${one.id} lies on “${other.text}” of ${other.id}`);
}

/** From a point to the nearest of a stretch. */
export function distanceTo(point: Point, a: Point, b: Point): number {
  const length = (b.x - a.x) ** 2 + (b.y - a.y) ** 2;
  const share = length === 0 ? 0 : ((point.x - a.x) * (b.x - a.x) + (point.y - a.y) * (b.y - a.y)) / length;
  const on = Math.max(0, Math.min(1, share));
  return Math.hypot(a.x + (b.x - a.x) * on - point.x, a.y + (b.y - a.y) * on - point.y);
}

/** Grid steps before their common lug on which two wires may lie on each other, as they do in the hand. */
const sharedSteps = 4;

/** Wires meet by crossing or at a joint, in no other way; those on one lug may share the last stretch before it. */
export function sharedStretches(scene: Scene): string[] {
  const all = scene.wires.flatMap((wire) => stretchesOf(wire.id, cornersOf(wire.points)));
  const found: string[] = [];
  for (const [one, other] of pairsNear(all, boxOf, 1)) {
    if (one.wire === other.wire) continue;
    const meeting = meet(one, other);
    if (meeting === 'no' || meeting === 'cross' || isBeforeLug(scene, one, other)) continue;
    if (meeting === 'along') found.push(`${one.wire} and ${other.wire} share a stretch`);
    if (meeting === 'touch' && !isJoint(scene, one, other)) found.push(`${one.wire} and ${other.wire} touch`);
  }
  return found;
}

/** Without the points that lie on a straight stretch: what crosses a wire there meets no end of it. */
function cornersOf(points: readonly Point[]): Point[] {
  return points.filter((point, index) => {
    const [before, after] = [points[index - 1], points[index + 1]];
    return !before || !after || distanceTo(point, before, after) > 0.01;
  });
}

/** True where all points at which two stretches meet lie just before a lug of both wires. */
function isBeforeLug(scene: Scene, one: Stretch, other: Stretch): boolean {
  const [a, b] = [one.wire, other.wire].map((id) => scene.wires.find((wire) => wire.id === id)!) as [SceneWire, SceneWire];
  const on = (points: readonly Point[], stretch: Stretch): Point[] =>
    points.filter((point) => distanceTo(point, stretch.a, stretch.b) < 0.01);
  const points = [...on([one.a, one.b], other), ...on([other.a, other.b], one)];
  const isNear = (point: Point, wire: SceneWire, lug: string): boolean =>
    endsAt(wire, lug).some((end) => Math.max(Math.abs(end.x - point.x), Math.abs(end.y - point.y)) <= sharedSteps * grid + 0.01);
  return [a.from, a.to].some((lug) => points.every((point) => isNear(point, a, lug) && isNear(point, b, lug)));
}

/** The ends of a wire that are soldered to a lug. */
function endsAt({ from, to, points }: SceneWire, lug: string): Point[] {
  return [...(from === lug ? [points[0]!] : []), ...(to === lug ? [points.at(-1)!] : [])];
}

function outside(scene: Scene): string[] {
  return sceneLabels(scene)
    .filter(
      ({ label }) => label.x < 0 || label.y < 0 || label.x + label.width > scene.width || label.y + label.height > scene.height,
    )
    .map(({ id, label }) => `“${label.text}” of ${id} lies off the sheet`);
}

export function stretchesOf(wire: string, points: readonly Point[]): Stretch[] {
  return points.slice(1).map((b, index) => ({ wire, a: points[index]!, b }));
}

/** Around a stretch. */
export function boxOf({ a, b }: Stretch): Box {
  return boxAround([a, b]);
}

/** True where the point at which two wires touch is a joint of both. */
function isJoint(scene: Scene, one: Stretch, other: Stretch): boolean {
  const shared = [one.a, one.b].filter((p) => [other.a, other.b].some((q) => same(p, q)));
  const screens = scene.wires.filter((wire) => wire.kind === 'screen' && [one.wire, other.wire].includes(wire.id));
  return (
    shared.some((point) => scene.joints.some((joint) => same(joint, point))) ||
    screens.some((screen) => [one.wire, other.wire].includes(screen.from))
  );
}

function same(p: Point, q: Point): boolean {
  return Math.abs(p.x - q.x) < 0.01 && Math.abs(p.y - q.y) < 0.01;
}

/** How two stretches meet: crossing inside both, touching at an end, or running along each other. */
export function meet(one: Stretch, other: Stretch): 'no' | 'cross' | 'touch' | 'along' {
  const side = (p: Point, q: Point, r: Point): number => {
    const area = (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    return Math.abs(area) < 1e-6 ? 0 : Math.sign(area);
  };
  const sides = [
    side(one.a, one.b, other.a),
    side(one.a, one.b, other.b),
    side(other.a, other.b, one.a),
    side(other.a, other.b, one.b),
  ];
  if (sides.every((value) => value === 0)) return alongEachOther(one, other);
  if (sides[0]! * sides[1]! > 0 || sides[2]! * sides[3]! > 0) return 'no';
  return sides[0]! * sides[1]! < 0 && sides[2]! * sides[3]! < 0 ? 'cross' : 'touch';
}

function alongEachOther(one: Stretch, other: Stretch): 'no' | 'touch' | 'along' {
  const isLevel = Math.abs(one.a.x - one.b.x) >= Math.abs(one.a.y - one.b.y);
  const on = (point: Point): number => (isLevel ? point.x : point.y);
  const start = Math.max(Math.min(on(one.a), on(one.b)), Math.min(on(other.a), on(other.b)));
  const end = Math.min(Math.max(on(one.a), on(one.b)), Math.max(on(other.a), on(other.b)));
  return end - start > 0.01 ? 'along' : end - start > -0.01 ? 'touch' : 'no';
}

/** True where a stroke of some width touches a box: the box grown by half the width meets the middle line. */
function crosses({ a, b }: Stretch, box: Box, half: number): boolean {
  const [left, top] = [box.x - half, box.y - half];
  const [right, bottom] = [box.x + box.width + half, box.y + box.height + half];
  let [from, to] = [0, 1];
  for (const [start, delta, least, most] of [
    [a.x, b.x - a.x, left, right],
    [a.y, b.y - a.y, top, bottom],
  ] as const) {
    if (delta === 0) {
      if (start <= least || start >= most) return false;
      continue;
    }
    const [enter, leave] = [(least - start) / delta, (most - start) / delta].sort((p, q) => p - q) as [number, number];
    from = Math.max(from, enter);
    to = Math.min(to, leave);
  }
  return from < to;
}

function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
