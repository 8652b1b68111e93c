/** The edits that write every wire's number down, so that it stays with the wire whatever comes before it. */
import type { Tree, WireStatement } from '../grammar/index.js';
import type { Edit } from '../source.js';
import type { Circuit } from './circuit.js';
import { compareRanges, rangeOn, type Origin } from './ranges.js';

/**
 * `no N` behind each wire of the text that has none yet; a chain gets its first piece's number, and those of further pieces where they do not count
 * on from it. Nothing is written for a wire of which an end is not known. `tree` is the text's own, `circuit` the circuit that it belongs to.
 */
export function numberEdits(tree: Tree, circuit: Pick<Circuit, 'joints'>): Edit[] {
  const marks = new Map(
    circuit.joints.flatMap(({ mark, aRange, bRange }) =>
      mark === undefined ? [] : [[`${placeOf(aRange)} ${placeOf(bRange)}`, Number(mark.slice(1))]],
    ),
  );
  return tree.statements.flatMap((statement) => {
    if (statement.kind !== 'wire') return [];
    const origin = { uri: tree.uri, line: statement.line };
    const numbers = statement.ends.slice(1).map((end, piece) => {
      const from = statement.ends[piece];
      return from === undefined
        ? undefined
        : marks.get(`${placeOf(rangeOn(origin, from.range))} ${placeOf(rangeOn(origin, end.range))}`);
    });
    const missing = neededOf(numbers).slice(statement.numbers.length);
    if (missing.length === 0) return [];
    const place = endOf(statement, origin);
    return [{ range: { uri: tree.uri, start: place, end: place }, text: missing.map((number) => ` no ${number}`).join('') }];
  });
}

/** All of them up to the last that does not count on from the one before it. */
function neededOf(numbers: readonly (number | undefined)[]): number[] {
  const known = numbers.filter((number) => number !== undefined);
  if (known.length < numbers.length) return [];
  const needed = known.filter((number, index) => index === 0 || number !== (known[index - 1] ?? 0) + 1);
  const last = needed.at(-1);
  return last === undefined ? [] : known.slice(0, known.lastIndexOf(last) + 1);
}

function endOf(statement: WireStatement, origin: Origin): Edit['range']['end'] {
  const nodes = [...statement.ends, ...statement.options, ...statement.numbers, ...statement.screens];
  const ends = nodes.map(({ range }) => rangeOn(origin, { start: range.end, end: range.end }));
  return ends.reduce((last, end) => (compareRanges(end, last) > 0 ? end : last)).end;
}

function placeOf({ uri, start }: { readonly uri: string; readonly start: Edit['range']['start'] }): string {
  return `${uri}:${start.line}:${start.character}`;
}
