/** Readings typed on the bench sheet: what a record has, and the edits that write one into it. */
import { readingAt, readingsSteps } from '../../../language/workshop/index.js';
import type { ReadingEdits, SheetReading, ServerRequests, TextRange } from '../../protocol.js';
import type { Service } from '../feature.js';
import { insertStatements } from '../insertions.js';
import { inSlices } from '../messages/pause.js';
import type { Snapshot } from '../workspace.js';
import { measuredLine, readingText } from './typed-reading.js';

type ParamsOf<M extends keyof ServerRequests> = ServerRequests[M]['params'];

/** Answers the requests about readings on the service's connection. */
export function registerSheetReadings({ connection, guard, workspace }: Service): void {
  connection.onRequest(
    'lugwork/readings',
    guard.request<ParamsOf<'lugwork/readings'>, readonly SheetReading[] | null>(
      'lugwork/readings',
      null,
      async ({ uri, places }, token) => {
        const circuit = (await workspace.snapshot(uri))?.circuit;
        if (circuit === undefined) return null;
        const isGivenUp = (): boolean => token.isCancellationRequested;
        if ((await inSlices(workspace.analysis.positionSteps(circuit), isGivenUp)) === undefined) return null;
        const readings = await inSlices(readingsSteps(circuit, places), isGivenUp);
        return readings?.map((taken) => (taken === undefined ? null : { text: taken.text, fits: taken.fits })) ?? null;
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

function editsOf(
  at: Snapshot,
  circuit: NonNullable<Snapshot['circuit']>,
  { uri, place, text }: ParamsOf<'lugwork/takeReading'>,
): ReadingEdits {
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
  const { range, newText } = insertStatements(at, [measuredLine(place, reading)], ['measured']);
  return { edits: [{ range, text: newText }] };
}
