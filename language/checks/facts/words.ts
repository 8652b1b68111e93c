/** Words that messages share: lists, counts, and where in the instrument's own text a thing stands. */
import { lugById, partById, type Circuit, type LugId, type Part, type PartId } from '../../circuit/model.js';
import type { SourceRange } from '../../source.js';

/** `a`, `a and b`, `a, b and c`; beyond `most` the rest is counted. */
export function listed(words: readonly string[], joiner: 'and' | 'or' = 'and', most = 5): string {
  const shown = words.length > most ? [...words.slice(0, most - 1), `${words.length - most + 1} more`] : words;
  if (shown.length <= 1) return shown[0] ?? '';
  return `${shown.slice(0, -1).join(', ')} ${joiner} ${shown[shown.length - 1]!}`;
}

/** The part that the instrument's own statement declares: an assembly for what stands inside it. */
export function ownPart(circuit: Circuit, id: PartId): Part {
  let part = partById(circuit, id);
  while (part.parent !== undefined) part = partById(circuit, part.parent);
  return part;
}

/** Where a finding about a part stands: its name in its statement. */
export function placeOfPart(circuit: Circuit, id: PartId): SourceRange {
  return ownPart(circuit, id).nameRange;
}

/** Where a finding about a lug stands: where a wire names it first, else its part's name. */
export function placeOfLug(circuit: Circuit, id: LugId): SourceRange {
  const lug = lugById(circuit, id);
  const part = partById(circuit, lug.part);
  return (part.parent === undefined ? lug.uses[0] : undefined) ?? placeOfPart(circuit, lug.part);
}

export function label(circuit: Circuit, id: LugId): string {
  return lugById(circuit, id).label;
}

export function labels(circuit: Circuit, ids: readonly LugId[]): readonly string[] {
  return ids.map((id) => label(circuit, id));
}

/** For a finding without a thing of its own: the title, else the first part, else the file's first character. */
export function placeOfInstrument(circuit: Circuit): SourceRange {
  const start = { line: 0, character: 0 };
  return circuit.titleRange ?? circuit.parts[0]?.nameRange ?? { uri: circuit.uri, start, end: start };
}
