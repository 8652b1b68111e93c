/** Writes a wire that was drawn in the panel into the text: one edit, which one undo takes back. */
import { l10n, window, type Uri } from 'vscode';
import type { DrawnEdits, DrawWireParams } from '../../server/protocol.js';
import { applyEdits } from '../apply-edits.js';
import type { ServerLink } from '../server-link.js';

export async function drawWire(
  link: ServerLink,
  uri: Uri,
  { from, to, other }: Pick<DrawWireParams, 'from' | 'to' | 'other'>,
): Promise<void> {
  const answer = await link.request('lugwork/drawWire', {
    uri: uri.toString(),
    from,
    to,
    ...(other === undefined ? {} : { other }),
  });
  if (answer === null) return void window.showErrorMessage(l10n.t('The circuit can’t be read, so nothing was written.'));
  const [lug, target, stays] = [from, to, other ?? from].map((id) => id.replace(/^lug:/, ''));
  if ('refused' in answer) return void window.showInformationMessage(refusal(answer.refused, lug, target, stays));
  if (!(await applyEdits(uri, answer))) await window.showErrorMessage(l10n.t('The wire could not be written.'));
}

type Refused = Extract<DrawnEdits, { refused: unknown }>['refused'];

function refusal(why: Refused, lug = '', target = '', stays = ''): string {
  switch (why) {
    case 'gone':
      return l10n.t('The circuit has changed in the meantime, so nothing was written. Draw the wire again.');
    case 'same':
      return l10n.t('A wire can’t begin and end at the same lug.');
    case 'joined':
      return l10n.t('{0} and {1} are joined already.', stays, target);
    case 'inside':
      return l10n.t('A part inside an assembly is wired in the assembly’s type. Change it in the text.');
    case 'elsewhere':
      return l10n.t('The end at {0} is written in another file, or as part of another statement. Change it in the text.', lug);
  }
}
