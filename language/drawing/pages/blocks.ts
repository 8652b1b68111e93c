/** Blocks: what stays in one piece when a drawing is cut into pages, a part with its marks, or parts that lie on each other. */
import { getOrCreate } from '../../collections.js';
import { type Box, boxAround, grow, joinBoxes, overlaps } from '../geometry.js';
import type { Picture, SceneMark, ScenePart, SceneWire } from '../scene.js';
import { labelBox } from '../shape.js';
import { shapeBox } from '../symbols/symbol.js';

export interface Block {
  readonly parts: readonly ScenePart[];
  /** The parts with their letters. */
  readonly body: Box;
  /** The marks at its lugs and their stubs too. */
  readonly box: Box;
}

export function blocksOf(picture: Picture): Block[] {
  const owner = ownersOf(picture);
  const attached = new Map<string, Box[]>();
  for (const wire of picture.wires.filter(({ kind }) => kind === 'ground')) {
    const part = owner.get(wire.from) ?? owner.get(wire.to);
    if (part !== undefined) getOrCreate(attached, part, () => []).push(boxAround(wire.points));
  }
  for (const mark of picture.marks) {
    const part = owner.get(mark.lug);
    if (part !== undefined) getOrCreate(attached, part, () => []).push(markBox(mark));
  }
  let blocks = picture.parts.map((part): Block => {
    const body = joinBoxes([part.box, ...part.shapes.map(shapeBox), ...part.labels.map(labelBox)]);
    return { parts: [part], body, box: joinBoxes([body, ...(attached.get(part.id) ?? [])]) };
  });
  for (let index = 0; index < blocks.length; index++) {
    const one = blocks[index];
    const over = blocks.find((other, at) => at > index && one !== undefined && overlaps(other.body, one.body));
    if (one === undefined || over === undefined) continue;
    blocks = [
      ...blocks.slice(0, index),
      {
        parts: [...one.parts, ...over.parts],
        body: joinBoxes([one.body, over.body]),
        box: joinBoxes([one.box, over.box]),
      },
      ...blocks.slice(index + 1).filter((other) => other !== over),
    ];
    index = -1;
  }
  return blocks;
}

/** Ids of the parts, by the ids of their lugs. */
export function ownersOf({ parts }: Picture): ReadonlyMap<string, string> {
  return new Map(parts.flatMap((part) => part.lugs.map((lug) => [lug.id, part.id] as const)));
}

export function wireBox({ points, labels }: SceneWire): Box {
  return grow(joinBoxes([boxAround(points), ...labels.map(labelBox)]), 3);
}

function markBox({ shapes, labels }: SceneMark): Box {
  return joinBoxes([...shapes.map(shapeBox), ...labels.map(labelBox)]);
}
