/** Where the things of a drawing stand in the text, by their ids in the scene. */
import { itemAt } from '../../../language/collections.js';
import { lugById, partById, shaftById, switchById, type Circuit } from '../../../language/circuit/index.js';
import type { Diagram } from '../../../language/drawing/index.js';
import type { SourceRange } from '../../../language/source.js';
import type { FilePlace } from '../../protocol.js';

/** First the place where one would go, then everything else that is about the thing. */
export function drawnPlaces(circuit: Circuit, diagram: Diagram): Record<string, FilePlace[]> {
  const places: Record<string, FilePlace[]> = {};
  const add = (id: string, ...ranges: readonly SourceRange[]): void => {
    const list = (places[id] ??= []);
    for (const range of ranges) if (!list.some((known) => isSame(known, range))) list.push(range);
  };
  for (const part of circuit.parts) {
    add(`part:${part.name}`, part.nameRange, part.range);
    if (part.family === 'assembly') add(`assembly:${part.name}`, part.nameRange, part.range);
    for (const id of part.lugs) {
      const lug = lugById(circuit, id);
      add(`lug:${lug.label}`, ...lug.uses, ...(lug.uses.length === 0 ? [part.nameRange] : []));
    }
  }
  for (const { name, nameRange, range } of circuit.cavities) add(`cavity:${name}`, nameRange, range);
  for (const { name, nameRange, range } of circuit.plates) add(`plate:${name}`, nameRange, range);
  for (const run of diagram.runs) {
    const joints = run.joints.map((joint) => itemAt(circuit.joints, joint));
    const ranges = [...joints.map(({ range }) => range), ...joints.map(({ statementRange }) => statementRange)];
    add(run.id, ...ranges);
    if (run.kind === 'ground') add(`mark:${run.from.slice('lug:'.length)}`, ...ranges);
  }
  // What is expected is heard at the jack, and said of the controls that it names.
  const output = circuit.output === undefined ? [] : [circuit.output.part];
  for (const { settings, range } of circuit.expectations) {
    const controls = settings.map((one) =>
      one.kind === 'switch' ? switchById(circuit, one.switch).part : shaftById(circuit, one.shaft).part,
    );
    for (const part of controls.length > 0 ? controls : output) add(`part:${partById(circuit, part).name}`, range);
  }
  return places;
}

function isSame(a: FilePlace, b: FilePlace): boolean {
  return (
    a.uri === b.uri &&
    a.start.line === b.start.line &&
    a.start.character === b.start.character &&
    a.end.line === b.end.line &&
    a.end.character === b.end.character
  );
}
