/** The overview of a drawing on several pages: all of it, with the names of its parts and the outlines of the pages instead of small letters. */
import { itemAt } from '../../collections.js';
import { type Box, grow, joinBoxes, overlaps, type Point } from '../geometry.js';
import { shifted } from '../scene/transform.js';
import type { Picture, SceneMark, SceneWire } from '../scene.js';
import { type Label, labelBox } from '../shape.js';
import { textHeight, textWidth, type TextStyle } from '../text-measure.js';
import type { Block } from './blocks.js';
import { noteBox } from './window.js';

export interface NumberedPage {
  readonly number: number;
  readonly box: Box;
}

/** `size` is that of the smallest letters, in drawing units. */
export function overviewPicture(
  picture: Picture,
  blocks: readonly Block[],
  pages: readonly NumberedPage[],
  size: number,
): Picture {
  const taken: Box[] = [];
  const bodies = blocks.map(({ body }) => body);
  const outlines = pages.map(({ number, box }): SceneMark => {
    const label = numberIn(box, String(number), { size: 1.8 * size, bold: true }, [...taken, ...bodies]);
    taken.push(noteBox(label));
    return {
      id: `page:${number}`,
      lug: '',
      says: `page ${number}`,
      shapes: [
        { kind: 'box', role: 'page', radius: 0, ...box },
        { kind: 'box', role: 'pill', radius: 4, ...noteBox(label) },
      ],
      labels: [label],
    };
  });
  const bySize = [...picture.parts].sort(
    (a, b) => b.box.width * b.box.height - a.box.width * a.box.height || (a.id < b.id ? -1 : 1),
  );
  const names = bySize.map((part): SceneMark => {
    const old = part.labels.filter(({ role }) => role === 'name').map(labelBox);
    const label = nameAt(part.name, { size, bold: true }, old.length === 0 ? part.box : joinBoxes(old), part.box, taken);
    taken.push(noteBox(label));
    const shapes = [{ kind: 'box', role: 'pill', radius: size / 3, ...noteBox(label) }] as const;
    return { id: `name:${part.id}`, lug: '', says: part.name, shapes, labels: [label] };
  });
  const shown = picture.wires.filter(({ kind }) => kind !== 'ground');
  const marks = [...outlines, ...names];
  const box = joinBoxes([
    { x: 0, y: 0, width: picture.width, height: picture.height },
    ...marks.flatMap(({ labels }) => labels.map(noteBox)),
    ...pages.map((page) => page.box),
  ]);
  const withoutLeader = (wire: SceneWire): SceneWire => {
    const { leader, ...rest } = wire;
    return leader === undefined ? wire : rest;
  };
  const unlettered = <T extends { readonly labels: readonly Label[] }>(item: T): T => ({ ...item, labels: [] });
  return shifted(
    {
      ...picture,
      groups: picture.groups.map(unlettered),
      channels: picture.channels.map(unlettered),
      parts: picture.parts.map(unlettered),
      wires: shown.map((wire) => unlettered(withoutLeader(wire))),
      marks,
      width: box.width,
      height: box.height,
    },
    { x: -box.x, y: -box.y },
  );
}

/** A page's number at a place in its outline where it covers no part, or in its corner. */
function numberIn(box: Box, text: string, style: TextStyle, taken: readonly Box[]): Label {
  const size = { width: textWidth(text, style), height: textHeight(text, style) };
  const inner = grow(box, -8);
  const places: Point[] = [];
  for (let y = 0; y <= 10; y++)
    for (let x = 0; x <= 10; x++)
      places.push({
        x: inner.x + (x / 10) * (inner.width - size.width),
        y: inner.y + (y / 10) * (inner.height - size.height),
      });
  const at = places.find((place) => isFree({ ...place, ...size }, taken)) ?? itemAt(places, 0);
  return labelAt(text, style, at);
}

/** A part's name where its name is in the drawing, or beside that where another lies there. */
function nameAt(text: string, style: TextStyle, old: Box, part: Box, taken: readonly Box[]): Label {
  const size = { width: textWidth(text, style), height: textHeight(text, style) };
  const middleOf = ({ x, y, width, height }: Box): Point => ({ x: x + width / 2, y: y + height / 2 });
  const [own, body] = [middleOf(old), middleOf(part)];
  const steps = [0, 1, -1, 2, -2, 3, -3];
  const tries = [
    ...steps.map((step) => ({ x: own.x, y: own.y + (step * size.height) / 1.5 })),
    ...steps.map((step) => ({ x: body.x, y: body.y + (step * size.height) / 1.5 })),
    ...steps.flatMap((step) =>
      [-1, 1].map((side) => ({ x: body.x + (side * (part.width + size.width)) / 2, y: body.y + (step * size.height) / 1.5 })),
    ),
  ].map(({ x, y }) => ({ x: x - size.width / 2, y: y - size.height / 2 }));
  return labelAt(text, style, tries.find((place) => isFree({ ...place, ...size }, taken)) ?? itemAt(tries, 0));
}

function isFree(box: Box, taken: readonly Box[]): boolean {
  const grown = grow(box, 5);
  return !taken.some((other) => overlaps(other, grown));
}

function labelAt(text: string, style: TextStyle, at: Point): Label {
  const size = { width: textWidth(text, style), height: textHeight(text, style) };
  return { ...at, ...size, text, size: style.size, bold: style.bold === true, role: 'name', upright: false };
}
