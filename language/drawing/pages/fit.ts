/** A picture with its notes on one sheet of paper, upright or on its side, as large as it fits. */
import { type Box, boxAround, grow, joinBoxes, moved, type Point, unitsPerMillimetre } from '../geometry.js';
import type { Drawing } from '../draw.js';
import { type NotesOnPage, type SheetNotes, withNotes } from '../scene/notes.js';
import { shifted } from '../scene/transform.js';
import { frozen, type Picture, type Scene, sceneLabels } from '../scene.js';
import { labelBox } from '../shape.js';
import { shapeBox } from '../symbols/symbol.js';
import { leastPoints, millimetresPerPoint, type Paper } from './paper.js';

/** One printed sheet. */
export interface PrintPage {
  /** As wide and as high as the paper. */
  readonly scene: Scene;
  /** Millimetres. */
  readonly width: number;
  readonly height: number;
  /** The smallest text, in points. */
  readonly points: number;
}

/** What the title block of every page needs. */
export interface PageTexts {
  readonly drawing: Pick<Drawing, 'scene' | 'diagram'>;
  readonly sheet: SheetNotes;
  readonly lines: readonly string[];
}

/** The least scale, in millimetres for a drawing unit, at which a text of so many units can be read. */
export function leastScale(size: number): number {
  return (leastPoints * millimetresPerPoint) / size;
}

/** The larger of both ways to turn the paper. `shown` makes the picture for a scale in millimetres for a drawing unit, with its texts so much larger than on a screen. */
export function onPaper(
  texts: PageTexts,
  paper: Paper,
  shown: (scale: number) => { readonly picture: Picture; readonly textScale: number },
): PrintPage {
  const [wide, tall] = paper.sizes.map((size) => {
    const at = (scale: number): Scene => {
      const { picture, textScale } = shown(scale);
      return noted(texts, picture, { width: (size.width - 2 * paper.margin) / scale, scale: textScale, lines: texts.lines });
    };
    const isRoom = (scale: number): boolean => {
      const { width, height } = shown(scale).picture;
      const room = (length: number): number => (length - 2 * paper.margin) / scale;
      return width <= room(size.width) && height <= room(size.height) && at(scale).height <= room(size.height);
    };
    let [low, high] = [0, 1 / unitsPerMillimetre];
    if (isRoom(high)) low = high;
    for (let step = 0; step < 16 && low < high; step++) {
      const middle = (low + high) / 2;
      if (isRoom(middle)) low = middle;
      else high = middle;
    }
    return { size, scale: low, at };
  });
  const best = wide === undefined || (tall !== undefined && tall.scale > wide.scale) ? tall : wide;
  if (best === undefined) throw new Error('a sheet of paper can be turned two ways');
  const { size, scale, at } = best;
  const scene = inMargins(at(scale), paper.margin / scale, { width: size.width / scale, height: size.height / scale });
  const smallest = Math.min(...sceneLabels(scene).map(({ label }) => label.size));
  return { scene: frozen(scene), ...size, points: (smallest * scale) / millimetresPerPoint };
}

/** Room for a picture on a sheet at a scale, for either way to turn it: drawing units. */
export function roomFor(texts: PageTexts, paper: Paper, picture: Picture, scale: number): readonly Box[] {
  return paper.sizes.map(({ width, height }) => {
    const inner = { width: (width - 2 * paper.margin) / scale, height: (height - 2 * paper.margin) / scale };
    const notes = noted(texts, picture, { width: inner.width, scale: 1, lines: texts.lines });
    return { x: 0, y: 0, width: inner.width, height: inner.height - (notes.height - picture.height) };
  });
}

function noted({ drawing, sheet }: PageTexts, picture: Picture, page: NotesOnPage): Scene {
  return { version: 1, ...withNotes(picture, drawing.diagram, drawing.scene.side, sheet, page) };
}

function inMargins(scene: Scene, margin: number, size: Pick<Box, 'width' | 'height'>): Scene {
  const by = { x: margin, y: margin };
  const line = (points: readonly Point[]): Point[] => points.map((point) => moved(point, by));
  return {
    ...scene,
    ...shifted(scene, by),
    ...size,
    caption: moved(scene.caption, by),
    notes: scene.notes.map((label) => moved(label, by)),
    samples: scene.samples.map((sample) => ({ ...sample, points: line(sample.points) })),
  };
}

/** The picture of a scene without its notes and without empty paper around it. */
export function trimmed(picture: Picture): Picture {
  const outlined = [...picture.groups, ...picture.channels, ...picture.parts, ...picture.marks];
  const box = grow(
    joinBoxes([
      ...outlined.flatMap(({ shapes, labels }) => [...shapes.map(shapeBox), ...labels.map(labelBox)]),
      ...picture.wires.flatMap(({ points, labels }) => [boxAround(points), ...labels.map(labelBox)]),
    ]),
    4,
  );
  return { ...shifted(picture, { x: -box.x, y: -box.y }), width: box.width, height: box.height };
}
