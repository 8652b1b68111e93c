/** Writes `expect` lines for all positions into the circuit, from what is so now or from a pattern of the trade. */
import { l10n, Position, Range, window, workspace, WorkspaceEdit } from 'vscode';
import type { Command } from './command.js';

export const writeExpectations: Command = {
  id: 'lugwork.writeExpectations',
  run: async (link) => {
    const document = window.activeTextEditor?.document;
    if (document?.languageId !== 'lugwork') {
      await window.showInformationMessage(l10n.t('Open a circuit first. The expectations describe its positions.'));
      return;
    }
    const { version } = document;
    const choices = await link.request('lugwork/expectationChoices', { uri: document.uri.toString() });
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
    const { range, text } = picked.choice.edit;
    const edit = new WorkspaceEdit();
    const [start, end] = [range.start, range.end].map(({ line, character }) => new Position(line, character)) as [
      Position,
      Position,
    ];
    edit.replace(document.uri, new Range(start, end), text);
    await workspace.applyEdit(edit);
  },
};
