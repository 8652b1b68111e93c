/** Writes `expect` lines for all positions into the circuit, from what is so now or from a pattern of the trade. */
import { l10n, Position, Range, window, workspace, WorkspaceEdit, type TextDocument } from 'vscode';
import type { ExpectationChoice, TextRange } from '../../server/protocol.js';
import type { Command } from './command.js';

export const writeExpectations: Command = {
  id: 'lugwork.writeExpectations',
  run: async (link, asked) => {
    // A lens hands over the address of a circuit whose usual expectations are wanted.
    const isUsual = typeof asked === 'string';
    const document = isUsual
      ? workspace.textDocuments.find(({ uri }) => uri.toString() === asked)
      : window.activeTextEditor?.document;
    if (document?.languageId !== 'lugwork') {
      await window.showInformationMessage(l10n.t('Open a circuit first. The expectations describe its positions.'));
      return;
    }
    const { version } = document;
    const choices = await link.request('lugwork/expectationChoices', { uri: document.uri.toString() });
    const usual = isUsual ? choices.find((choice) => choice.isUsual) : undefined;
    if (usual !== undefined) {
      if (document.version === version) await write(document, usual);
      return;
    }
    if (choices.length === 0) {
      await window.showInformationMessage(
        l10n.t('There are no expectations to write yet: the circuit has no jack, or no pickup that can be heard.'),
      );
      return;
    }
    const items = choices.map((choice) => ({ label: choice.title, detail: choice.detail, choice }));
    const picked = await window.showQuickPick(items, {
      title: l10n.t('Choose what the positions should do'),
      matchOnDetail: true,
    });
    if (picked === undefined || document.version !== version) return;
    await write(document, picked.choice);
  },
};

async function write({ uri }: TextDocument, { edits, kept }: ExpectationChoice): Promise<void> {
  const edit = new WorkspaceEdit();
  for (const { range, text } of edits) edit.replace(uri, rangeOf(range), text);
  if (edits.length > 0) await workspace.applyEdit(edit);
  if (kept.length > 0)
    await window.showInformationMessage(
      l10n.t('Your own lines were kept where they say something else: {0}', kept.map((line) => line + 1).join(', ')),
    );
  else if (edits.length === 0)
    await window.showInformationMessage(l10n.t('There was nothing to write: every line is stated already.'));
}

function rangeOf({ start, end }: TextRange): Range {
  return new Range(new Position(start.line, start.character), new Position(end.line, end.character));
}
