/** Readings typed on the sheet, written into the record of that instrument, where they can be undone as any other edit. */
import { l10n, window, type Uri } from 'vscode';
import { readingPlaces, type ReadingPlace, type Sheet } from '../../language/workshop/index.js';
import type { RecordReadings } from '../../server/protocol.js';
import { applyEdits } from '../apply-edits.js';
import type { ServerLink } from '../server-link.js';
import { beginRecord, isThere, showFailure } from './record.js';

/** What the record says of the places of the sheet, and which rows it ticks; nothing where there is no record. */
export async function readingsOf(link: ServerLink, record: Uri | undefined, sheet: Sheet): Promise<RecordReadings> {
  const nothing: RecordReadings = { readings: [], done: [] };
  if (record === undefined || !(await isThere(record))) return nothing;
  return (await link.request('lugwork/readings', { uri: record.toString(), places: readingPlaces(sheet) })) ?? nothing;
}

/** Writes the reading, after a question where the record has to be begun first. `done` are the keys that are ticked. */
export async function takeReading(
  link: ServerLink,
  circuit: Uri,
  { number, record, done }: { readonly number: number; readonly record: Uri | undefined; readonly done: readonly string[] },
  { place, text }: { readonly place: ReadingPlace; readonly text: string },
): Promise<void> {
  if (record === undefined)
    return void window.showInformationMessage(l10n.t('Save the circuit first. Its record is saved beside it.'));
  if (!(await isThere(record))) {
    if (text.trim() === '') return;
    const begin = l10n.t('Begin a Record');
    const question = l10n.t('Instrument {0} has no record yet. Readings are kept in a record beside the circuit.', number);
    if ((await window.showInformationMessage(question, begin)) !== begin) return;
    try {
      await beginRecord(circuit, record, number, done);
    } catch (error) {
      return showFailure(error);
    }
  }
  const answer = await link.request('lugwork/takeReading', { uri: record.toString(), place, text });
  if (answer === null) return void window.showErrorMessage(l10n.t('The record can’t be read, so the reading was not written.'));
  if ('refused' in answer) return void window.showWarningMessage(refusal(answer.refused, text));
  if (!(await applyEdits(record, answer)))
    await window.showErrorMessage(l10n.t('The reading could not be written into the record.'));
}

function refusal(why: 'text' | 'place' | 'line', text: string): string {
  if (why === 'text') return l10n.t('“{0}” is not a reading. Write a resistance such as 6.15k or 820, or open, or short.', text);
  return why === 'place'
    ? l10n.t('The record does not have this switch setting, so the reading was not written.')
    : l10n.t('This reading is part of a line that says more, or of another file. Change it in the text.');
}
