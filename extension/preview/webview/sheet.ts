/** What of a drawing's sheet the panel shows as drawing, and what it writes itself, where it can be read at any zoom. */
import { boxAround, grow, joinBoxes, shapeBox, type Box, type Scene } from '../../../language/drawing/index.js';

export interface Sheet {
  /** The wiring with the key to its lines, without the title above and the cautions below. */
  readonly content: Box;
  /** The words below the key, line breaks taken out. */
  readonly cautions: string;
  /** The notes that are no part of the content, by their order in the scene. */
  readonly outside: readonly number[];
}

export function readSheet(scene: Scene): Sheet {
  const { groups, channels, parts, wires, marks, notes, samples } = scene;
  const items = [...groups, ...channels, ...parts, ...marks];
  const wiring = joinBoxes([
    ...items.flatMap(({ shapes, labels }) => [...shapes.map(shapeBox), ...labels]),
    ...parts.map(({ box }) => box),
    ...wires.flatMap(({ points, labels }) => [boxAround(points), ...labels]),
  ]);
  const lines = samples.map(({ points }) => boxAround(points));
  const key = notes.filter((note) => lines.some(({ y }) => note.y <= y && y <= note.y + note.height));
  const content = joinBoxes([wiring, ...lines, ...key]);
  const below = notes.filter(({ y }) => y >= content.y + content.height);
  return {
    content: grow(content, 14),
    cautions: below.map(({ text }) => text).join(' '),
    outside: notes.flatMap((note, index) => (key.includes(note) ? [] : [index])),
  };
}
