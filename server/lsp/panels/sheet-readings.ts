/** Readings typed on the bench sheet: what a record has, what is ticked in it, and the edits that write a reading into it. */
import { readSettings, type AnalysedCircuit } from '../../../language/circuit/index.js';
import { outputLabel, settingsMatching } from '../../../language/electrics/index.js';
import type { DottedName } from '../../../language/grammar/index.js';
import { readingAt, readingsSteps, type ReadingPlace } from '../../../language/workshop/index.js';
import type { ReadingEdits, RecordReadings, ServerRequests, TextRange } from '../../protocol.js';
import type { Service } from '../feature.js';
import { insertStatements } from '../insertions.js';
import { inSlices } from '../messages/pause.js';
import { inFile, textIn } from '../places.js';
import type { Snapshot } from '../workspace.js';
import { measuredLine, readingText } from './typed-reading.js';

type ParamsOf<M extends keyof ServerRequests> = ServerRequests[M]['params'];

/** Answers the requests about readings on the service's connection. */
export function registerSheetReadings({ connection, guard, workspace }: Service): void {
  connection.onRequest(
    'lugwork/readings',
    guard.request<ParamsOf<'lugwork/readings'>, RecordReadings | null>(
      'lugwork/readings',
      null,
      async ({ uri, places }, token) => {
        const circuit = (await workspace.snapshot(uri))?.circuit;
        if (circuit === undefined) return null;
        const isGivenUp = (): boolean => token.isCancellationRequested;
        if ((await inSlices(workspace.analysis.positionSteps(circuit), isGivenUp)) === undefined) return null;
        const readings = await inSlices(readingsSteps(circuit, places), isGivenUp);
        if (readings === undefined) return null;
        return {
          readings: readings.map((taken) => (taken === undefined ? null : { text: taken.text, fits: taken.fits })),
          done: circuit.record?.done ?? [],
        };
      },
    ),
  );
  connection.onRequest(
    'lugwork/takeReading',
    guard.request<ParamsOf<'lugwork/takeReading'>, ReadingEdits | null>('lugwork/takeReading', null, async (params, token) => {
      const at = await workspace.snapshot(params.uri);
      if (at?.circuit === undefined) return null;
      const isGivenUp = (): boolean => token.isCancellationRequested;
      if ((await inSlices(workspace.analysis.positionSteps(at.circuit), isGivenUp)) === undefined) return null;
      return editsOf(at, at.circuit, params);
    }),
  );
}

function editsOf(at: Snapshot, circuit: AnalysedCircuit, { uri, place, text }: ParamsOf<'lugwork/takeReading'>): ReadingEdits {
  const found = readingAt(circuit, place);
  if (found === undefined) return { refused: 'place' };
  const { taken } = found;
  // A line that also speaks of other settings, or of every instrument, is not changed.
  const own = taken !== undefined && taken.settings === found.settings && taken.range.uri === uri ? taken : undefined;
  if (text.trim() === '') {
    if (taken === undefined) return { edits: [] };
    if (own === undefined || own.measurement.claims.length > 1) return { refused: 'line' };
    const { start, end } = own.measurement.range;
    const lines: TextRange = { start: { line: start.line, character: 0 }, end: { line: end.line + 1, character: 0 } };
    return { edits: [{ range: lines, text: '' }] };
  }
  const reading = readingText(text);
  if (reading === undefined) return { refused: 'text' };
  if (own !== undefined) {
    const { start, end } = own.range;
    return { edits: [{ range: { start, end }, text: `reads ${reading}` }] };
  }
  const waiting = waitingFor(at, circuit, place);
  if (waiting !== undefined) return { edits: [{ range: waiting, text: `reads ${reading}` }] };
  const { range, newText } = insertStatements(at, [measuredLine(place, reading)], ['measured']);
  return { edits: [{ range, text: newText }] };
}

/** The words `reads ?` of a line of the record that waits for the reading of this place. */
function waitingFor({ tree, text }: Snapshot, circuit: AnalysedCircuit, place: ReadingPlace): TextRange | undefined {
  const wanted = placeKey(circuit, place);
  for (const statement of tree.statements) {
    if (statement.kind !== 'measured') continue;
    const { line, between, output, settings, claims } = statement;
    const claim = claims.find((one) => one.kind === 'reads' && one.value.kind === 'unknown');
    if (claim === undefined) continue;
    const asked: ReadingPlace = {
      at: output === undefined ? '' : nameOf(output),
      setting: settings.map(({ range }) => textIn(text, inFile(line, range)).replace(/\s+/g, ' ')).join(', '),
      ...(between === undefined ? {} : { between: [nameOf(between[0]), nameOf(between[1])] }),
    };
    if (placeKey(circuit, asked) === wanted) return inFile(line, claim.range);
  }
  return undefined;
}

/** The same for two places that mean the same probes and settings, however they are written. */
function placeKey(circuit: AnalysedCircuit, { at, setting, between }: ReadingPlace): string {
  const read = setting === '' ? { settings: [] } : readSettings(circuit, setting);
  const settings = 'problem' in read ? setting : settingsMatching(circuit, read.settings);
  const probes = between === undefined ? (at === '' ? outputLabel(circuit) : at) : [...between].sort();
  return JSON.stringify([probes, settings]);
}

function nameOf({ path }: DottedName): string {
  return path.map(({ text }) => text).join('.');
}
