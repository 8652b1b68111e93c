/** Edits that quick fixes are made of. */
import { lugById, partById, partOfLug, type Circuit, type Joint, type LugId, type PartId } from '../circuit/model.js';
import type { Edit, Fix, SourceRange } from '../source.js';

/** Takes a wire's whole statement out of the text, its line with it; nothing where the statement has other runs, is the part's own, or is in a type, which other parts may be of. */
export function removeStatement(circuit: Circuit, joint: Joint): readonly Edit[] | undefined {
  if (joint.kind === 'inside') return undefined;
  const inPlace = [joint.a, joint.b].some((lug) => partOfLug(circuit, lug).inPlace);
  const others = circuit.joints.some(
    (other) => other.statement === joint.statement && other.id !== joint.id && other.kind !== 'screen',
  );
  if (others || (inPlace && joint.kind === 'solder')) return undefined;
  const { uri, start, end } = joint.statementRange;
  return [{ range: { uri, start: { line: start.line, character: 0 }, end: { line: end.line + 1, character: 0 } }, text: '' }];
}

/** Exchanges two lugs of a part wherever a wire, joint or part statement names them; nothing where that can't be done for this part alone. */
export function exchangeLugs(circuit: Circuit, a: LugId, b: LugId): readonly Edit[] | undefined {
  const { parent } = partOfLug(circuit, a);
  if (parent !== undefined) return exchangeInside(circuit, parent, a, b);
  const rename = (from: LugId, to: LugId): readonly Edit[] =>
    lugById(circuit, from).uses.map((range: SourceRange) => ({ range, text: lugById(circuit, to).label }));
  return [...rename(a, b), ...rename(b, a)];
}

/** The same in the text of the type that holds the part; nothing where that text is in another file, or is the inside of other parts as well. */
function exchangeInside(circuit: Circuit, holder: PartId, a: LugId, b: LugId): readonly Edit[] | undefined {
  const { inPlace } = partOfLug(circuit, a);
  const named = circuit.joints.filter(
    (joint) => joint.holder === holder && [a, b].some((lug) => [joint.a, joint.b].includes(lug)),
  );
  const isShared = circuit.joints.some(
    (joint) => joint.holder !== holder && named.some(({ range }) => isSameRange(range, joint.range)),
  );
  if (inPlace || isShared || named.some(({ range }) => range.uri !== circuit.uri)) return undefined;
  const outer = `${partById(circuit, holder).name}.`;
  const rename = (from: LugId, to: LugId): readonly Edit[] => {
    const text = lugById(circuit, to).label.slice(outer.length);
    const ranges = named.flatMap((joint) => [
      ...(joint.a === from ? [joint.aRange] : []),
      ...(joint.b === from ? [joint.bRange] : []),
    ]);
    return ranges
      .filter((range, i) => ranges.findIndex((other) => isSameRange(other, range)) === i)
      .map((range) => ({ range, text }));
  };
  return [...rename(a, b), ...rename(b, a)];
}

function isSameRange(one: SourceRange, other: SourceRange): boolean {
  return one.uri === other.uri && one.start.line === other.start.line && one.start.character === other.start.character;
}

/** A fix that is only offered where its edits can be made. Nobody has tried it. */
export function fixWith(title: string, edits: readonly Edit[] | undefined): readonly Fix[] {
  return edits === undefined ? [] : [{ title, edits, confidence: 'possible' }];
}
