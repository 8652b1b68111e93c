/** Copies the lugs of the part at the cursor; what the server hands over, or from the palette what it offers there. */
import { commands, env, l10n, window, type CodeAction } from 'vscode';
import type { Command } from './command.js';

export const copyLugs: Command = {
  id: 'lugwork.copyLugs',
  async run(_link, asked) {
    const lugs = typeof asked === 'string' ? asked : await lugsAtCursor();
    if (lugs === undefined) return void window.showInformationMessage(l10n.t('Put the cursor on a part, then copy its lugs.'));
    await env.clipboard.writeText(lugs);
    const names = lugs.split('\n').filter((line) => line !== '');
    const text =
      names.length === 1
        ? l10n.t('{0} copied', lugs)
        : l10n.t('{0} lugs copied: {1} to {2}', names.length, names[0] ?? '', names.at(-1) ?? '');
    window.setStatusBarMessage(text, 5000);
  },
};

async function lugsAtCursor(): Promise<string | undefined> {
  const editor = window.activeTextEditor;
  if (editor?.document.languageId !== 'lugwork') return undefined;
  const offered = await commands.executeCommand<CodeAction[]>(
    'vscode.executeCodeActionProvider',
    editor.document.uri,
    editor.selection,
    'refactor.copy',
  );
  const handed: unknown = offered.find(({ command }) => command?.command === copyLugs.id)?.command?.arguments?.[0];
  return typeof handed === 'string' ? handed : undefined;
}
