/** The chooser of circuits to start from: a page that shows each with its drawing, and opens the one that is chosen. */
import { commands, l10n, Uri, ViewColumn, window, workspace, type Disposable, type WebviewPanel } from 'vscode';
import { startingCircuits } from '../../language/starts/index.js';
import { pageLanguage } from '../localize.js';
import { chooserPage } from './chooser-page.js';

/** Of the links: the command that is registered below. */
const command = 'lugwork.chooseCircuit';

/** Registers the command; `extension` is the folder of the extension. Its links are the same command with a name. */
export function registerStarts(extension: Uri): Disposable {
  const page = Uri.joinPath(extension, 'extension', 'starts', 'page');
  let open: WebviewPanel | undefined;

  const show = (): void => {
    if (open !== undefined) return open.reveal();
    const title = l10n.t('Choose a Circuit');
    const panel = window.createWebviewPanel('lugworkStarts', title, ViewColumn.Active, {
      enableCommandUris: [command],
      localResourceRoots: [page],
    });
    const addressOf = (name: string): string => panel.webview.asWebviewUri(Uri.joinPath(page, name)).toString();
    panel.webview.html = chooserPage({
      language: pageLanguage().language ?? 'en',
      title,
      says: l10n.t(
        'Each is a whole circuit that checks without findings. It opens as a new document, which has no file until it is saved.',
      ),
      source: panel.webview.cspSource,
      style: addressOf('chooser.css'),
      choices: startingCircuits.map(({ name, summary }) => ({
        text: summary,
        picture: addressOf(`${name}.svg`),
        link: `command:${command}?${encodeURIComponent(JSON.stringify([name]))}`,
      })),
    });
    panel.onDidDispose(() => (open = undefined));
    open = panel;
  };
  const start = async (content: string): Promise<void> => {
    const document = await workspace.openTextDocument({ language: 'lugwork', content });
    open?.dispose();
    await window.showTextDocument(document);
  };

  return commands.registerCommand('lugwork.chooseCircuit', async (asked?: unknown) => {
    const chosen = startingCircuits.find(({ name }) => name === asked);
    if (chosen === undefined) show();
    else await start(chosen.text);
  });
}
