/** A reading as a person types it, and the `measured` line that says it. */
import { parseValue } from '../../../language/grammar/index.js';
import type { Located } from '../../../language/intent/index.js';
import type { ReadingPlace } from '../../../language/workshop/index.js';
import type { WrittenReading } from '../../protocol.js';
import { insertStatements } from '../insertions.js';
import { inFile, textIn } from '../places.js';
import { aligned } from '../texts/aligned.js';
import type { Snapshot } from '../workspace.js';

/** What is typed as a `measured` line says it: `6.6k`, `open`, `short`; undefined where it is no reading of a meter in ohms. */
export function readingText(typed: string): string | undefined {
  const text = typed.trim().toLowerCase();
  if (text === 'open' || text === 'short') return text;
  const written = typed.replace(/\s+/g, '').replace(/(?:Ω|ohms?)$/iu, '');
  const parsed = /^[\d.]+[kKMR]?$/.test(written) ? parseValue(written.replace('K', 'k'), 'ohm') : undefined;
  return parsed !== undefined && Number.isFinite(parsed.value) ? ohmExactly(parsed.value) : undefined;
}

/** Writes a reading that the search asks for: into the line that waits for it with `reads ?`, or as a new one. */
export function writtenReading(at: Snapshot, { next, probes }: Located, line: string, typed: string): WrittenReading {
  if (next?.line !== line && !probes.includes(line)) return { refused: 'line' };
  const reading = readingText(typed);
  if (reading === undefined) return { refused: 'text' };
  const waiting = at.tree.statements.find(
    (statement) =>
      statement.kind === 'measured' &&
      textIn(at.text, inFile(statement.line, statement.range)).replace(/\s+/g, ' ') === line.replace('…', '?'),
  );
  const edit =
    waiting === undefined
      ? insertStatements(at, [line.replace('…', reading)], ['measured'])
      : { range: inFile(waiting.line, waiting.range), newText: line.replace('…', reading) };
  return { edits: aligned(at.text, [edit]).map(({ range, newText }) => ({ range, text: newText })) };
}

/** All the figures that were typed, where `ohmText` would round them. */
function ohmExactly(ohm: number): string {
  const figure = (value: number): string => String(Number(value.toPrecision(12)));
  if (ohm >= 1e6) return `${figure(ohm / 1e6)}M`;
  return ohm >= 1e3 ? `${figure(ohm / 1e3)}k` : `${figure(ohm)}R`;
}

/** `measured at output.ring, selector 1 : reads 6.6k`; `measured between output.sleeve and volume.case : reads 0.4R`. */
export function measuredLine({ at, setting, between }: ReadingPlace, reading: string): string {
  const probes = between === undefined ? '' : `between ${between.join(' and ')}`;
  const where = [probes, at === '' ? '' : `at ${at}`, setting].filter((words) => words !== '').join(', ');
  return `measured ${where === '' ? '' : `${where} `}: reads ${reading}`;
}
