/** The item in the status bar: what the circuit in the active editor comes to, and one click to the table of its positions. */
import { l10n, StatusBarAlignment, window, workspace, type Disposable, type TextEditor } from 'vscode';
import { createLatest } from './preview/latest.js';
import type { ServerLink } from './server-link.js';

/** Registers the item and keeps it true: it is there while a circuit is in the active editor. */
export function registerOverview(link: ServerLink): Disposable {
  const item = window.createStatusBarItem('overview', StatusBarAlignment.Left, 0);
  item.name = l10n.t('Lugwork: Positions and Findings');
  let last: TextEditor | undefined;
  /** The editor that was active last, where a panel has the keyboard now and the text is still beside it. */
  const lastIn = (editors: readonly TextEditor[]): TextEditor | undefined => editors.find((editor) => editor === last);
  const newest = createLatest<undefined>(
    async (_, isOld) => {
      const document = (window.activeTextEditor ?? lastIn(window.visibleTextEditors))?.document;
      if (document?.languageId !== 'lugwork' || document.uri.scheme === 'lugwork') return item.hide();
      if (link.state !== 'ready' && link.state !== 'checking') return item.hide();
      const found = await link.request('lugwork/overview', { uri: document.uri.toString() });
      if (isOld()) return;
      if (found === null) return item.hide();
      item.text = `$(circuit-board) ${found.positions}, ${found.findings}`;
      item.tooltip = [found.expectations, l10n.t('Show the table of positions')].filter(Boolean).join('\n');
      item.command = {
        title: l10n.t('Show the table of positions'),
        command: 'lugwork.openDrawing',
        arguments: [document.uri, 'positions'],
      };
      item.show();
    },
    (error) => link.output.warn(`overview: ${String(error)}`),
  );
  const show = (): void => {
    last = window.activeTextEditor ?? last;
    void newest.ask(undefined);
  };
  const disposables = [
    item,
    window.onDidChangeActiveTextEditor(show),
    workspace.onDidOpenTextDocument(show),
    link.onDidChangeState(show),
    link.onChecked((uri) => {
      if (uri === last?.document.uri.toString()) show();
    }),
  ];
  show();
  return { dispose: () => disposables.forEach((one) => void one.dispose()) };
}
