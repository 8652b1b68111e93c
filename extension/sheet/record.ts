/** The record of one instrument, beside its circuit: opened where there is one, else begun with what is ticked. */
import { lastOf } from '../../language/collections.js';
import { FileSystemError, l10n, Uri, window, workspace } from 'vscode';
import { recordName, recordText } from './record-text.js';

/** A record that is there is never written over. */
export async function openRecord(circuit: Uri, number: number, done: readonly string[]): Promise<void> {
  if (circuit.scheme === 'untitled') {
    await window.showInformationMessage(l10n.t('Save the circuit first. Its record is saved beside it.'));
    return;
  }
  const place = recordPlace(circuit, number);
  try {
    if (await isThere(place)) {
      await window.showTextDocument(await workspace.openTextDocument(place));
      await window.showInformationMessage(l10n.t('This instrument already has a record. Its ticks are there as `done` lines.'));
      return;
    }
    await beginRecord(circuit, place, number, done);
    await window.showTextDocument(await workspace.openTextDocument(place));
  } catch (error) {
    await showFailure(error);
  }
}

/** Says why a record could not be written. */
export async function showFailure(error: unknown): Promise<void> {
  await window.showErrorMessage(
    l10n.t('The record could not be written: {0}', error instanceof Error ? error.message : String(error)),
  );
}

/** Where the record of one instrument is, or would be. */
export function recordPlace(circuit: Uri, number: number): Uri {
  return Uri.joinPath(circuit, '..', recordName(lastOf(circuit.path.split('/')), number));
}

/** A new record at its place, with what is ticked. */
export async function beginRecord(circuit: Uri, place: Uri, number: number, done: readonly string[]): Promise<void> {
  await create(place, recordText(lastOf(circuit.path.split('/')), number, done));
}

/** Throws where it cannot be known, so that a record that cannot be seen for the moment is not taken for none. */
export async function isThere(place: Uri): Promise<boolean> {
  try {
    await workspace.fs.stat(place);
    return true;
  } catch (error) {
    if (error instanceof FileSystemError && error.code === 'FileNotFound') return false;
    throw error;
  }
}

/** Writes the text beside its place and moves it there when it is whole; what came there meanwhile stays. */
async function create(place: Uri, text: string): Promise<void> {
  const waiting = place.with({ path: `${place.path}.tmp` });
  await workspace.fs.writeFile(waiting, new TextEncoder().encode(text));
  try {
    await workspace.fs.rename(waiting, place, { overwrite: false });
  } catch (error) {
    await workspace.fs.delete(waiting);
    throw error;
  }
}
