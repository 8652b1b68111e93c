/** Copies the lugs of the part at the cursor; what the server hands over, or from the palette what it offers there. */
import { commands, env, l10n, window, type CodeAction } from 'vscode';
import type { Command } from './command.js';

export const copyLugs: Command = {
  id: 'lugwork.copyLugs',
  async run(_link, asked) {
    const lugs = typeof asked === 'string' ? asked : await lugsAtCursor();
    if (lugs === undefined) return void window.showInformationMessage(l10n.t('Put the cursor on a part, then copy its lugs.'));
    await env.clipboard.writeText(lugs);
    window.setStatusBarMessage(l10n.t('Lugs copied: {0}', lugs.split('\n').join(', ')), 5000);
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
