/** One bench sheet beside its circuit: keeps it true to the text, and the ticks in the workspace. */
import { lastOf } from '../../language/collections.js';
import { commands, l10n, Uri, window, type WebviewPanel } from 'vscode';
import { createLatest } from '../preview/latest.js';
import type { Sheet } from '../../language/workshop/index.js';
import type { ServerLink } from '../server-link.js';
import { openPage, opensOutside, savePage } from './print.js';
import type { FromSheet, SheetState, ToSheet } from './protocol.js';
import { readingsOf, takeReading } from './readings.js';
import { openRecord, recordPlace } from './record.js';
import type { Ticks } from './ticks.js';

export interface SheetPanel {
  readonly uri: Uri;
  readonly panel: WebviewPanel;
  /** The text, or a file that it uses, has changed. */
  textChanged(): void;
  /** Puts the focus on the first step that is not done. */
  goToNext(): void;
  print(): Promise<void>;
  save(): Promise<void>;
}

/** Wires up a webview that shows the sheet's page; `storage` is the extension's own folder. */
export function createSheetPanel(
  panel: WebviewPanel,
  link: ServerLink,
  ticks: Ticks,
  storage: Uri,
  first: SheetState,
): SheetPanel {
  const uri = Uri.parse(first.uri, true);
  let state = first;
  let shown: Pick<Extract<ToSheet, { kind: 'sheet' }>, 'sheet' | 'batch' | 'isRecord'> | undefined;
  /** The sheet whose readings are asked for. */
  let asked: { readonly sheet: Sheet; readonly isRecord: boolean } | undefined;
  /** What the record of this instrument ticks. */
  let recorded: readonly string[] = [];
  let drawn: ToSheet | undefined;
  let banner: ToSheet = { kind: 'banner', text: '' };
  let isReady = false;
  let hasRows = false;
  let isNextAsked = false;

  const post = (message: ToSheet): void => {
    if (isReady) void panel.webview.postMessage(message);
  };
  const sendSheet = (sheet = shown): void => {
    if (sheet === undefined) return;
    post({ kind: 'sheet', state, ...sheet, done: ticks.of(state.uri, state.number), recorded });
    hasRows = isReady;
    sendNext();
  };
  /** A page that has no rows yet goes to the next step when it has. */
  const sendNext = (): void => {
    if (!isNextAsked || !hasRows) return;
    isNextAsked = false;
    post({ kind: 'next' });
  };
  const sendBanner = (text: string): void => {
    banner = { kind: 'banner', text };
    post(banner);
  };
  const failed = (error: unknown): void =>
    link.output.error(`bench sheet: ${error instanceof Error ? error.message : String(error)}`);

  const reading = createLatest<undefined>(async () => {
    if (link.state !== 'ready' && link.state !== 'checking') return;
    const answer = await link.request('lugwork/sheet', { uri: first.uri, evenBroken: shown === undefined });
    if (answer === null) return sendBanner(l10n.t('The circuit can’t be read.'));
    const { faults, batch, isRecord, sheet } = answer;
    sendBanner(bannerOf(faults, sheet !== undefined));
    if (sheet === undefined) return;
    shown = faults === 0 ? { sheet, batch, isRecord } : undefined;
    const number = Math.min(Math.max(1, state.number), Math.max(1, batch));
    state = { ...state, number };
    asked = { sheet, isRecord };
    sendSheet({ sheet, batch, isRecord });
    void readings.ask(undefined);
    void drawing.ask(undefined);
  }, failed);

  /** The instrument's record; undefined beside a circuit that is in no file. */
  const record = (): Uri | undefined =>
    asked?.isRecord === true ? uri : uri.scheme === 'untitled' ? undefined : recordPlace(uri, state.number);
  const readings = createLatest<undefined>(async () => {
    if (asked === undefined) return;
    const place = record();
    const read = await readingsOf(link, place, asked.sheet);
    // Another instrument may have been chosen meanwhile.
    if (place?.toString() !== record()?.toString()) return;
    recorded = read.done;
    post({ kind: 'readings', ...read });
  }, failed);

  /** After the steps, which are not to wait for it. */
  const drawing = createLatest<undefined>(async () => {
    const look = { side: 'solder', grounds: 'auto', evenBroken: drawn === undefined } as const;
    const scene = (await link.request('lugwork/scene', { uri: first.uri, ...look }))?.scene;
    if (scene === undefined) return;
    drawn = { kind: 'picture', scene };
    post(drawn);
  }, failed);

  const goToNext = (): void => {
    panel.reveal(undefined, false);
    isNextAsked = true;
    sendNext();
  };
  const page = (form: 'html' | 'markdown'): Promise<string | null> => {
    const done = [...recorded, ...ticks.of(state.uri, state.number)];
    return link.request('lugwork/sheetPage', { uri: first.uri, form, number: state.number, done });
  };
  const save = (): Promise<void> => savePage(uri, page);
  const print = async (): Promise<void> => {
    if (!opensOutside(storage)) {
      void window.showInformationMessage(
        l10n.t(
          'This editor runs in a browser or on another machine, so it can’t open the sheet for printing. Save it, open it in your browser and print it there.',
        ),
      );
      return savePage(uri, page, l10n.t('Save the sheet, then print it from your browser'));
    }
    const html = await page('html');
    if (html === null) void window.showErrorMessage(l10n.t('The circuit can’t be read, so there is no sheet to print.'));
    else await openPage(uri, state.number, storage, html);
  };

  const receive = async (message: FromSheet): Promise<void> => {
    switch (message.kind) {
      case 'ready':
        isReady = true;
        post(banner);
        if (drawn !== undefined) post(drawn);
        sendSheet();
        return readings.ask(undefined);
      case 'tick':
        return ticks.set(state.uri, state.number, String(message.key), message.isDone === true);
      case 'number':
        state = { ...state, number: Number(message.number) || 1 };
        recorded = [];
        sendSheet();
        return readings.ask(undefined);
      case 'reading':
        await takeReading(
          link,
          uri,
          { number: state.number, record: record(), done: ticks.of(state.uri, state.number) },
          message,
        );
        return readings.ask(undefined);
      case 'drawing':
        return void (await commands.executeCommand('lugwork.openDrawing', uri));
      case 'print':
        return print();
      case 'save':
        return save();
      case 'record':
        return openRecord(uri, state.number, ticks.of(state.uri, state.number));
      case 'failed':
        return failed(new Error(message.message));
    }
  };
  panel.webview.onDidReceiveMessage((message: FromSheet) => void receive(message).catch(failed));
  panel.title = l10n.t('Sheet of {0}', lastOf(uri.path.split('/')) ?? '');
  void reading.ask(undefined);
  return { uri, panel, textChanged: () => void reading.ask(undefined), goToNext, print, save };
}

function bannerOf(faults: number, hasSheet: boolean): string {
  if (faults === 0) return '';
  if (hasSheet)
    return faults === 1
      ? l10n.t('The text has an error. The sheet shows only what could be read. Don’t build from it.')
      : l10n.t('The text has {0} errors. The sheet shows only what could be read. Don’t build from it.', faults);
  return faults === 1
    ? l10n.t('The text has an error. This is the last complete sheet.')
    : l10n.t('The text has {0} errors. This is the last complete sheet.', faults);
}
