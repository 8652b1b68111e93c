/** The picture of one page: what lies in its window, with its edge drawn, and a note at each wire that goes on elsewhere. */
import { pairwise } from '../../collections.js';
import { type Box, grow, holds, isWithin, joinBoxes, meets, overlaps, type Point } from '../geometry.js';
import { shifted } from '../scene/transform.js';
import type { Picture, SceneGroup, SceneMark, SceneWire } from '../scene.js';
import { type Label, labelBox, type Shape } from '../shape.js';
import { shapeBox } from '../symbols/symbol.js';
import { noteBox, notesOf, type PlacedNote, type Sheet, type Window } from './window.js';

/** `pageOf` says on which page a block is. */
export function detailPicture(
  { picture, blocks }: Sheet,
  window: Window,
  pageOf: (block: number | undefined) => number,
): Picture {
  const parts = new Set([...window.blocks].flatMap((index) => blocks[index]?.parts.map(({ id }) => id) ?? []));
  const lugs = new Set(picture.parts.filter(({ id }) => parts.has(id)).flatMap((part) => part.lugs.map(({ id }) => id)));
  const notes = notesOf(window, pageOf);
  const wires = [...window.whole, ...notes.map((note) => cutWire(note, window.box))].sort((a, b) => (a.id < b.id ? -1 : 1));
  const ids = new Set(wires.map(({ id }) => id));
  const isOnWire = (point: Point): boolean =>
    wires.some(({ points }) =>
      pairwise(points).some(([a, b]) => meets(a, b, { x: point.x - 6, y: point.y - 6, width: 12, height: 12 })),
    );
  const edge: SceneGroup = {
    id: 'page-edge',
    says: 'edge of this page',
    shapes: [{ kind: 'box', role: 'page-edge', radius: 0, ...window.box }],
    labels: [],
  };
  const box = joinBoxes([window.box, ...notes.map(({ label }) => noteBox(label))]);
  return shifted(
    {
      groups: [edge, ...picture.groups.flatMap((group) => withinWindow(group, window.box))],
      channels: picture.channels.flatMap((channel) => withinWindow(channel, window.box)),
      parts: picture.parts.filter(({ id }) => parts.has(id)),
      wires,
      lacings: picture.lacings.filter(
        ({ points }) => points.every((point) => holds(window.box, point)) && points.every(isOnWire),
      ),
      joints: picture.joints.filter(
        ({ id, lug }) => lugs.has(lug) && (!id.includes('@') || ids.has(id.slice(6, id.lastIndexOf('@')))),
      ),
      marks: [...picture.marks.filter(({ lug }) => lugs.has(lug)), ...notes.map(noteMark)],
      contacts: picture.contacts.filter(({ part }) => parts.has(part)),
      width: box.width,
      height: box.height,
    },
    { x: -box.x, y: -box.y },
  );
}

/** The stretch of a wire up to its note, with its pills as far as they lie on it. */
function cutWire({ cut: { wire, points, to }, at }: PlacedNote, window: Box): SceneWire {
  const { leader, labels, ...rest } = wire;
  const drawn = [...points, at];
  const isOn = (label: Label): boolean => {
    const around = grow(labelBox(label), 4);
    return leader === undefined && isWithin(around, window) && pairwise(points).some(([a, b]) => meets(a, b, around));
  };
  const end = `end:${to}`;
  return { ...rest, ...(wire.to === to ? { to: end } : { from: end }), points: drawn, labels: labels.filter(isOn) };
}

function noteMark({ cut: { wire, to }, label }: PlacedNote): SceneMark {
  return {
    id: `leaves:${wire.id}>${to}`,
    lug: to,
    says: `${wire.says}; goes on: ${label.text}`,
    shapes: [{ kind: 'box', role: 'pill', radius: 7, ...noteBox(label) }],
    labels: [label],
  };
}

/** Outlines as far as they lie in a window, letters where they lie in it whole. */
function withinWindow<T extends { readonly shapes: readonly Shape[]; readonly labels: readonly Label[] }>(
  item: T,
  window: Box,
): T[] {
  const shapes = item.shapes.flatMap((shape) => clipped(shape, window));
  const labels = item.labels.filter((label) => isWithin(label, window));
  return shapes.length === 0 ? [] : [{ ...item, shapes, labels }];
}

function clipped(shape: Shape, window: Box): Shape[] {
  const box = shapeBox(shape);
  if (shape.kind !== 'path' && shape.role !== 'cavity' && shape.role !== 'assembly') {
    if (!overlaps(box, window)) return [];
    const [x, y] = [Math.max(box.x, window.x), Math.max(box.y, window.y)];
    const [right, bottom] = [
      Math.min(box.x + box.width, window.x + window.width),
      Math.min(box.y + box.height, window.y + window.height),
    ];
    const isWhole = right - x === box.width && bottom - y === box.height;
    return isWhole ? [shape] : [{ kind: 'box', role: shape.role, radius: 0, x, y, width: right - x, height: bottom - y }];
  }
  // The wall of a cavity is a line; where it goes on beyond the page, it is not closed along the page's edge.
  if (isWithin(box, window)) return [shape];
  const points = shape.kind === 'path' ? shape.points : outlineOf(box);
  return pairwise(points).flatMap(([a, b]): Shape[] => {
    const span = spanIn(a, b, window);
    const at = (share: number): Point => ({ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share });
    return span === undefined ? [] : [{ kind: 'path', role: shape.role, closed: false, points: [at(span[0]), at(span[1])] }];
  });
}

function outlineOf({ x, y, width, height }: Box): Point[] {
  const [right, bottom] = [x + width, y + height];
  return [
    { x, y },
    { x: right, y },
    { x: right, y: bottom },
    { x, y: bottom },
    { x, y },
  ];
}

/** The share of a stretch that lies in a box, from where to where. */
function spanIn(a: Point, b: Point, { x, y, width, height }: Box): readonly [number, number] | undefined {
  let [from, to] = [0, 1];
  for (const [start, step, least, most] of [
    [a.x, b.x - a.x, x, x + width],
    [a.y, b.y - a.y, y, y + height],
  ] as const) {
    if (step === 0) {
      if (start < least || start > most) return undefined;
      continue;
    }
    const [one, two] = [(least - start) / step, (most - start) / step];
    from = Math.max(from, Math.min(one, two));
    to = Math.min(to, Math.max(one, two));
  }
  return from < to ? [from, to] : undefined;
}
