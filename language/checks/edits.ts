/** Edits that quick fixes are made of. */
import { lugById, partOfLug, type Circuit, type Joint, type LugId } from '../circuit/model.js';
import type { Edit, SourceRange } from '../source.js';

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

/** Exchanges two lugs wherever a wire, joint or part statement names them. */
export function exchangeLugs(circuit: Circuit, a: LugId, b: LugId): readonly Edit[] {
  const rename = (from: LugId, to: LugId): readonly Edit[] =>
    lugById(circuit, from).uses.map((range: SourceRange) => ({ range, text: lugById(circuit, to).label }));
  return [...rename(a, b), ...rename(b, a)];
}
