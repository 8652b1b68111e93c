/** One drawing panel: keeps its picture true to the text, answers what is done in it. */
import { firstOf, itemAt, lastOf } from '../../language/collections.js';
import {
  commands,
  l10n,
  MarkdownString,
  Position,
  Range,
  Selection,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  window,
  workspace,
  type CodeAction,
  type Diagnostic,
  type Hover,
  type WebviewPanel,
} from 'vscode';
import type { DrawnScene } from '../../server/protocol.js';
import { bannerOf, bannerOfFailure } from './banner.js';
import type { ServerLink } from '../server-link.js';
import { saveDrawing } from './export.js';
import { applyFix, findingsOf, fixesOf, panelFindings } from './findings.js';
import { drawWire } from './draw-wire.js';
import { writeReading } from './write-reading.js';
import { createLatest } from './latest.js';
import { idsAt } from './places.js';
import type { About, FromPanel, PanelState, SectionName, ToPanel } from './protocol.js';
import { readMessage } from './read-message.js';

/** Points of a curve: more than a narrow plot has columns to show. */
const curvePoints = 240;

export interface DrawingPanel {
  readonly uri: Uri;
  readonly panel: WebviewPanel;
  /** The text, or a file that it uses, has changed. */
  textChanged(): void;
  findingsChanged(): void;
  cursorMoved(document: Uri, place: Position): void;
  export(format: 'svg' | 'png'): void;
  /** Opens a section beside the drawing and goes there. */
  goToSection(name: SectionName): void;
}

/** Wires up a webview that shows the panel's page. */
export function createDrawingPanel(panel: WebviewPanel, link: ServerLink, first: PanelState): DrawingPanel {
  const uri = Uri.parse(first.uri, true);
  let state = first;
  let places: DrawnScene['places'] = {};
  let shown: string | undefined;
  let findings: readonly Diagnostic[] = [];
  let isReady = false;
  /** Where to go as soon as the page is there. */
  let wanted: SectionName | undefined;

  /** The newest of each kind: a panel that was out of sight is loaded anew and wants them all again. */
  const lastSent = new Map<ToPanel['kind'], ToPanel>();
  const send = (message: ToPanel): void => {
    if (message.kind !== 'about' && message.kind !== 'export' && message.kind !== 'section') lastSent.set(message.kind, message);
    if (isReady) void panel.webview.postMessage(message);
  };
  const failed = (error: unknown): void =>
    link.output.error(`drawing: ${error instanceof Error ? error.message : String(error)}`);
  const isServed = (): boolean => link.state === 'ready' || link.state === 'checking';

  let hasPicture = false;
  const picture = createLatest<undefined>(
    async (_, isOld) => {
      if (!isServed()) return;
      const { side, grounds } = state;
      const drawn = await link.request('lugwork/scene', { uri: first.uri, side, grounds, evenBroken: shown === undefined });
      if (drawn === null) return send({ kind: 'banner', text: l10n.t('The circuit can’t be read.') });
      places = drawn.places;
      send({ kind: 'banner', text: bannerOf(drawn, l10n.t) });
      if (drawn.scene !== undefined) {
        const message: ToPanel = { kind: 'picture', scene: drawn.scene, controls: drawn.controls, remarks: drawn.remarks };
        const text = JSON.stringify(message);
        if (text !== shown) send(message);
        hasPicture = true;
        shown = drawn.faults === 0 ? text : undefined;
      }
      sendFindings();
      sendCursor();
      void play.ask(undefined);
      if (drawn.scene === undefined || isOld()) return;
      send({ kind: 'table', ...(await link.request('lugwork/positions', { uri: first.uri })) });
      const search = isOld() ? null : await link.request('lugwork/suspects', { uri: first.uri });
      if (search !== null) send({ kind: 'suspects', search });
    },
    (error) => {
      failed(error);
      send({ kind: 'banner', text: bannerOfFailure(error, hasPicture, l10n.t) });
    },
  );

  const play = createLatest<undefined>(async () => {
    if (!isServed()) return;
    const asked = { uri: first.uri, grounds: state.grounds, at: state.at };
    const [highlight, curve] = await Promise.all([
      link.request('lugwork/overlay', asked),
      link.request('lugwork/response', { ...asked, points: curvePoints }),
    ]);
    if (highlight !== null && curve !== null) send({ kind: 'played', at: asked.at, highlight, curve });
  }, failed);

  const sendFindings = (): void => {
    findings = findingsOf(uri);
    send({ kind: 'findings', findings: panelFindings(uri, findings, places) });
  };
  const sendCursor = (): void => {
    const editor = window.visibleTextEditors.find(({ document }) => document.uri.toString() === first.uri);
    if (editor !== undefined) send({ kind: 'cursor', ids: idsAt(places, first.uri, editor.selection.active) });
  };

  const become = (next: Partial<PanelState>): void => {
    state = { ...state, ...next };
    send({ kind: 'state', state });
  };

  const about = async (id: string): Promise<About> => {
    const here = panelFindings(uri, findings, places).filter(({ ids }) => ids.includes(id));
    const offered = await Promise.all(
      here.map(async ({ number }) =>
        (await fixesOf(uri, itemAt(findings, number))).map(({ title }): About['fixes'][number] => ({ finding: number, title })),
      ),
    );
    const fixes = [...new Map(offered.flat().map((fix) => [fix.title, fix])).values()];
    const list = places[id];
    const place = list?.[0];
    if (list === undefined || place === undefined) return { hover: [], findings: here, fixes };
    const hovers = await commands.executeCommand<Hover[]>(
      'vscode.executeHoverProvider',
      Uri.parse(place.uri, true),
      hoverPlace(id, list),
    );
    return { hover: hovers.flatMap(({ contents }) => contents.map(markdownOf)), findings: here, fixes };
  };

  const receive = async (message: FromPanel): Promise<void> => {
    switch (message.kind) {
      case 'ready':
        isReady = true;
        lastSent.forEach((one) => void panel.webview.postMessage(one));
        if (wanted !== undefined) void panel.webview.postMessage({ kind: 'section', name: wanted } satisfies ToPanel);
        wanted = undefined;
        return;
      case 'go':
        await goTo(places[message.id]?.[0]);
        return;
      case 'goFinding': {
        const finding = findings[message.finding];
        if (finding !== undefined) await goTo({ uri: first.uri, ...finding.range });
        return;
      }
      case 'ask':
        return send({ kind: 'about', id: message.id, about: await about(message.id) });
      case 'fix':
        return applyChosen(uri, findings[message.finding], message.title);
      case 'wire':
        return drawWire(link, uri, message);
      case 'reading':
        return writeReading(link, uri, message);
      case 'rename':
        if (await goTo(places[message.id]?.[0])) await commands.executeCommand('editor.action.rename');
        return;
      case 'set':
        become({ at: message.at });
        return play.ask(undefined);
      case 'look':
        become({ side: message.side, grounds: message.grounds });
        return picture.ask(undefined);
      case 'exported':
        return saveDrawing(
          uri,
          message.format,
          message.format === 'svg' ? new TextEncoder().encode(message.text) : message.bytes,
        );
      case 'failed':
        return failed(message.message);
    }
  };
  panel.webview.onDidReceiveMessage((value: unknown) => {
    const message = readMessage(value);
    if (message === undefined) return failed('ignored an unknown message from the panel');
    return receive(message).catch(failed);
  });
  become({});
  // Drawn while the panel's page is still being loaded.
  void picture.ask(undefined);
  panel.title = l10n.t('Drawing of {0}', uri.path.split('/').at(-1) ?? '');

  return {
    uri,
    panel,
    textChanged: () => void picture.ask(undefined),
    findingsChanged: sendFindings,
    cursorMoved: (document, place) => send({ kind: 'cursor', ids: idsAt(places, document.toString(), place) }),
    export: (format) => send({ kind: 'export', format }),
    goToSection(name) {
      if (isReady) send({ kind: 'section', name });
      else wanted = name;
    },
  };
}

/** A name is asked at its end, where its lug stands; a wire at the word that begins its statement. */
function hoverPlace(id: string, list: DrawnScene['places'][string]): Position {
  const isNamed = /^(lug|part|assembly|cavity|plate):/.test(id);
  const { line, character } = isNamed ? firstOf(list).end : lastOf(list).start;
  return new Position(line, isNamed ? Math.max(0, character - 1) : character);
}

/** Does what the lamp would do for this finding under that title. */
async function applyChosen(uri: Uri, finding: Diagnostic | undefined, title: string): Promise<void> {
  const fixes: CodeAction[] = finding === undefined ? [] : await fixesOf(uri, finding);
  const fix = fixes.find((one) => one.title === title);
  if (fix !== undefined && (await applyFix(fix))) return;
  void window.showInformationMessage(
    l10n.t('The text has changed in the meantime, so the fix was not applied. Choose it again.'),
  );
}

/** Shows a place of a text with the cursor there; false where there is none. */
async function goTo(place: DrawnScene['places'][string][number] | undefined): Promise<boolean> {
  if (place === undefined) return false;
  const uri = Uri.parse(place.uri, true);
  const range = new Range(place.start.line, place.start.character, place.end.line, place.end.character);
  const visible = window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri.toString());
  const document = visible?.document ?? (await workspace.openTextDocument(uri));
  const editor = await window.showTextDocument(document, { viewColumn: visible?.viewColumn ?? ViewColumn.One });
  editor.selection = new Selection(range.start, range.start);
  editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
  return true;
}

function markdownOf(content: Hover['contents'][number]): string {
  if (typeof content === 'string') return content;
  return content instanceof MarkdownString ? content.value : `\`${content.value}\``;
}
