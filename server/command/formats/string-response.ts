/** The response as one string sounds: a plot and a row for each partial on the terminal, JSON, comma-separated values and a picture. */
import { oneLine } from '../../../language/escape.js';
import { partById, type AnalysedCircuit, type StringNote } from '../../../language/circuit/index.js';
import type { Partial, StringResponse } from '../../../language/electrics/index.js';
import { listed } from '../../../language/words.js';
import { decibels, hertz, sixFigures, thousandths } from '../output/figures.js';
import { silence } from '../output/plot.js';
import { csvTable, textTable } from '../output/table.js';
import { responsePlot } from './response.js';
import { responseSvg } from './response-svg.js';

/** One string's response, and what it is called. */
export interface StringCurve {
  readonly circuit: AnalysedCircuit;
  /** 1 is the last of the tuning, as players count. */
  readonly number: number;
  readonly string: StringNote;
  readonly response: StringResponse;
}

export function stringJson(curve: StringCurve, set: Readonly<Record<string, string>>): string {
  const { number, string, response, circuit } = curve;
  const json = {
    set,
    string: { number, note: string.name, hz: sixFigures(string.hz) },
    points: response.points.map(({ hz, db, deg }) => ({ hz: sixFigures(hz), db: thousandths(db), deg: thousandths(deg) })),
    partials: response.partials.map(({ number: partial, hz, db, deg, factors }) => ({
      partial,
      hz: sixFigures(hz),
      db: thousandths(db),
      deg: thousandths(deg),
      factors: Object.fromEntries(factors.map(({ pickup, factor }) => [partById(circuit, pickup).name, thousandths(factor)])),
    })),
    notes: notesOf(curve),
  };
  return `${JSON.stringify(json, null, 2)}\n`;
}

/** The curve and the partials in order of frequency; `partial` is empty on the curve. */
export function stringCsv({ response: { points, partials } }: StringCurve): string {
  const rows = [...points.map((point) => ({ ...point, number: undefined })), ...partials].sort((a, b) => a.hz - b.hz);
  return csvTable({
    heads: ['hz', 'db', 'deg', 'partial'],
    rows: rows.map(({ hz, db, deg, number }) => [
      ...[sixFigures(hz), thousandths(db), thousandths(deg)].map(String),
      number === undefined ? '' : String(number),
    ]),
  });
}

export function stringText(curve: StringCurve, columns: number): string {
  const { response, circuit } = curve;
  if (response.problem !== undefined) return `${stringLabel(curve)}\n\n${response.problem}\n`;
  const pickups = (response.partials[0]?.factors ?? []).map(({ pickup }) => partById(circuit, pickup).name);
  const table = textTable({ heads: ['partial', 'frequency', 'level', ...pickups], rows: response.partials.map(rowOf) });
  const notes = notesOf(curve).map((note) => `${oneLine(note)}\n`);
  return [`${stringLabel(curve)}\n`, responsePlot(response.points, columns), table, notes.join('')]
    .filter((piece) => piece !== '')
    .join('\n');
}

export function stringSvg(curve: StringCurve, title: string, label: string): string {
  const { points, partials, problem } = curve.response;
  const words = [`As ${stringLabel(curve)}.`, ...notesOf(curve).map((note) => `${note}.`), ...(problem ? [`${problem}.`] : [])];
  const picture = { points, peak: null, cutoffHz: null, levelDb: null };
  return responseSvg(picture, title, `${label}, ${stringLabel(curve)}`, { words: words.join(' '), marks: partials });
}

/** `string 6, E2, 82.4 Hz`. */
function stringLabel({ number, string }: StringCurve): string {
  return `string ${number}, ${string.name}, ${hertz(string.hz)}`;
}

function rowOf({ number, hz, db, factors }: Partial): string[] {
  return [String(number), hertz(hz), db <= silence ? 'silent' : decibels(db), ...factors.map(({ factor }) => signed(factor))];
}

/** `+0.71`. */
function signed(factor: number): string {
  const text = factor.toFixed(2).replace(/^-0\.00$/, '0.00');
  return factor > 0 && text !== '0.00' ? `+${text}` : text;
}

/** What the curve takes for granted. */
function notesOf({ response: { pointLike, severalCoils } }: StringCurve): readonly string[] {
  const names = (parts: StringResponse['pointLike']): string => listed(parts.map(({ name }) => name));
  return [
    'every partial has the same amplitude on the string: 0 dB is one unloaded pickup where the partial is strongest',
    ...(pointLike.length > 0 ? [`without an aperture a pickup senses a point: ${names(pointLike)}`] : []),
    ...(severalCoils.length > 0 ? [`all coils of ${names(severalCoils)} count at the pickup’s place`] : []),
  ];
}
