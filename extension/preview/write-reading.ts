/** Writes a reading that was typed in the panel into the text. */
import { l10n, window, type Uri } from 'vscode';
import { applyEdits } from '../apply-edits.js';
import type { ServerLink } from '../server-link.js';

export async function writeReading(
  link: ServerLink,
  uri: Uri,
  { line, text }: { readonly line: string; readonly text: string },
): Promise<void> {
  const answer = await link.request('lugwork/writeReading', { uri: uri.toString(), line, text });
  if (answer === null) return void window.showErrorMessage(l10n.t('The circuit can’t be read, so nothing was written.'));
  if ('refused' in answer) {
    const why =
      answer.refused === 'text'
        ? l10n.t('“{0}” is not a reading. Write a resistance such as 6.15k or 820, or open, or short.', text)
        : l10n.t('The readings have changed in the meantime, so another one is asked for now.');
    return void window.showWarningMessage(why);
  }
  if (!(await applyEdits(uri, answer))) await window.showErrorMessage(l10n.t('The reading could not be written.'));
}
