/** The record of one instrument, beside its circuit: opened where there is one, else begun with what is ticked. */
import { Uri, window, workspace } from 'vscode';
import { recordName, recordText } from './record-text.js';

/** A record that is there is never written over. */
export async function openRecord(circuit: Uri, number: number, done: readonly string[]): Promise<void> {
  if (circuit.scheme === 'untitled') {
    await window.showInformationMessage('Save the circuit first: its record stands beside it.');
    return;
  }
  const name = circuit.path.split('/').at(-1)!;
  const place = Uri.joinPath(circuit, '..', recordName(name, number));
  const isThere = await workspace.fs.stat(place).then(
    () => true,
    () => false,
  );
  if (isThere) {
    await window.showTextDocument(await workspace.openTextDocument(place));
    await window.showInformationMessage('This instrument has a record already. Its ticks stand in it as `done` lines.');
    return;
  }
  try {
    await workspace.fs.writeFile(place, new TextEncoder().encode(recordText(name, number, done)));
    await window.showTextDocument(await workspace.openTextDocument(place));
  } catch (error) {
    await window.showErrorMessage(`The record could not be written: ${error instanceof Error ? error.message : String(error)}`);
  }
}
