/** One comparison beside its circuit: keeps it true to the text. */
import { lastOf } from '../../language/collections.js';
import { l10n, Range, Selection, TextEditorRevealType, Uri, ViewColumn, window, type WebviewPanel } from 'vscode';
import type { CompareParams } from '../../server/protocol.js';
import { createLatest } from '../preview/latest.js';
import type { ServerLink } from '../server-link.js';
import { lastCommitted } from './git.js';
import type { CompareState, FromCompare, ToCompare } from './protocol.js';

export interface ComparePanel {
  readonly panel: WebviewPanel;
  /** One of the texts, or a file that they use, has changed. */
  textChanged(): void;
}

/** Wires up a webview that shows the comparison's page. */
export function createComparePanel(panel: WebviewPanel, link: ServerLink, state: CompareState): ComparePanel {
  const { uri, against } = state;
  let shown: Extract<ToCompare, { kind: 'comparison' }> | undefined;
  let banner: ToCompare = { kind: 'banner', text: '' };
  let isReady = false;

  const post = (message: ToCompare): void => {
    if (isReady) void panel.webview.postMessage(message);
  };
  const sendBanner = (text: string): void => {
    banner = { kind: 'banner', text };
    post(banner);
  };
  const failed = (error: unknown): void =>
    link.output.error(`comparison: ${error instanceof Error ? error.message : String(error)}`);

  const reading = createLatest<undefined>(async () => {
    if (link.state !== 'ready' && link.state !== 'checking') return;
    const before = await earlier();
    if ('problem' in before) return sendBanner(before.problem);
    const compared = await link.request('lugwork/compare', { uri, before });
    if (compared === null) return sendBanner(l10n.t('One of the two circuits can’t be read.'));
    sendBanner('');
    const names = { before: against.kind === 'commit' ? l10n.t('last commit') : nameOf(against.uri), after: nameOf(uri) };
    shown = { kind: 'comparison', ...names, compared };
    post(shown);
  }, failed);

  async function earlier(): Promise<CompareParams['before'] | { readonly problem: string }> {
    return against.kind === 'file' ? { uri: against.uri } : lastCommitted(Uri.parse(uri, true));
  }

  const go = async (number: number): Promise<void> => {
    if (shown === undefined) return;
    const { parts, wires } = shown.compared.change;
    const change = [...parts, ...wires][number];
    const place = change?.after ?? (against.kind === 'file' ? change?.before : undefined);
    if (place === undefined) return void window.showInformationMessage(l10n.t('Removed items are only in the earlier text.'));
    const range = new Range(place.start.line, place.start.character, place.end.line, place.end.character);
    const visible = window.visibleTextEditors.find(({ document }) => document.uri.toString() === Uri.parse(place.uri).toString());
    const editor = await window.showTextDocument(Uri.parse(place.uri, true), {
      viewColumn: visible?.viewColumn ?? ViewColumn.One,
    });
    editor.selection = new Selection(range.start, range.start);
    editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
  };
  const receive = async (message: FromCompare): Promise<void> => {
    switch (message.kind) {
      case 'ready':
        isReady = true;
        post({ kind: 'state', state });
        post(banner);
        return shown === undefined ? undefined : post(shown);
      case 'go':
        return go(Number(message.change));
      case 'failed':
        return failed(String(message.message));
    }
  };
  panel.webview.onDidReceiveMessage((message: FromCompare) => void receive(message).catch(failed));
  panel.title = l10n.t('Changes of {0}', nameOf(uri));
  void reading.ask(undefined);
  return { panel, textChanged: () => void reading.ask(undefined) };
}

function nameOf(uri: string): string {
  return lastOf(Uri.parse(uri).path.split('/'));
}
