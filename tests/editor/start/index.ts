/** What `npm start` adds to the editor that it opens: on its first sight the walkthrough, and an example with its drawing beside it. */
import { commands, Uri, ViewColumn, window, workspace, type ExtensionContext } from 'vscode';

const example = 'two-single-coils-lever-3.lug';
const key = 'begun';

export async function activate(context: ExtensionContext): Promise<void> {
  const folder = workspace.workspaceFolders?.[0]?.uri;
  if (folder === undefined || context.workspaceState.get(key) === true) return;
  await context.workspaceState.update(key, true);
  await commands.executeCommand('workbench.action.openWalkthrough', 'lugwork.lugwork#firstCircuit', false);
  const document = await workspace.openTextDocument(Uri.joinPath(folder, example));
  await window.showTextDocument(document, { viewColumn: ViewColumn.One, preview: false });
  await commands.executeCommand('lugwork.openDrawing', document.uri);
}
