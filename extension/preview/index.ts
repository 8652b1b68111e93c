/** The drawing beside the text: its commands, its panels, and their return after a reload. */
import { commands, l10n, languages, Uri, window, type Disposable } from 'vscode';
import { firstOf } from '../../language/collections.js';
import { activeCircuit } from '../active-circuit.js';
import { createPanelHost, type PanelHost } from '../panel-host.js';
import type { ServerLink } from '../server-link.js';
import { exportPage } from './export.js';
import { createDrawingPanel, type DrawingPanel } from './panel.js';
import type { PanelState } from './protocol.js';
import { freshState, readState } from './state.js';

/** Milliseconds after which a circuit that is being looked at is drawn beforehand. */
const lookMs = 250;

/** Registers everything about the panel; `extension` is the folder of the extension. */
export function registerPreview(link: ServerLink, extension: Uri): Disposable {
  const host = createPanelHost<PanelState, DrawingPanel>(link, extension, {
    viewType: 'lugworkDrawing',
    title: l10n.t('Drawing'),
    pageTitle: l10n.t('Wiring drawing'),
    page: 'drawing-panel',
    restMs: 120,
    keyOf: ({ uri }) => uri,
    readState,
    create: (panel, state) => createDrawingPanel(panel, link, state),
  });
  const { open } = host;
  const openDrawing = (asked?: unknown, section?: unknown): void => {
    const uri = asked instanceof Uri ? asked : activeCircuit();
    if (uri === undefined) void window.showInformationMessage(l10n.t('Open a circuit first. Its drawing opens beside it.'));
    else {
      const one = host.reveal(freshState(uri.toString()));
      if (section === 'positions') one.goToSection(section);
    }
  };
  const exportAs = (format: 'svg' | 'png'): void => {
    const one = host.active() ?? open.get(window.activeTextEditor?.document.uri.toString() ?? '');
    if (one === undefined) void window.showInformationMessage(l10n.t('Open the drawing first, then export it.'));
    else one.export(format);
  };
  const pageAsked = (): void => {
    const uri = host.active()?.uri ?? activeCircuit();
    if (uri === undefined) return void window.showInformationMessage(l10n.t('Open a circuit first, then export its page.'));
    exportPage(link, extension, uri).catch((error: unknown) => {
      link.output.error(`page: ${String(error)}`);
      void window.showErrorMessage(l10n.t('The page could not be made: {0}', String(error)));
    });
  };
  const disposables = [
    commands.registerCommand('lugwork.openDrawing', openDrawing),
    commands.registerCommand('lugwork.exportDrawingSvg', () => exportAs('svg')),
    commands.registerCommand('lugwork.exportDrawingPng', () => exportAs('png')),
    commands.registerCommand('lugwork.exportPage', pageAsked),
    languages.onDidChangeDiagnostics(({ uris }) => uris.forEach((uri) => open.get(uri.toString())?.findingsChanged())),
    window.onDidChangeTextEditorSelection(({ textEditor: { document }, selections }) => {
      if (document.languageId !== 'lugwork') return;
      open.forEach((one) => one.cursorMoved(document.uri, firstOf(selections).active));
    }),
    prepareDrawings(link, host),
    host,
  ];
  return { dispose: () => disposables.forEach((one) => void one.dispose()) };
}

/** Has the circuit that is being looked at drawn: the first drawing is what takes time, so that it is there when the panel is opened. */
function prepareDrawings(link: ServerLink, { open }: PanelHost<PanelState, DrawingPanel>): Disposable {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const prepare = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      const document = window.activeTextEditor?.document;
      if (document?.languageId !== 'lugwork' || link.state !== 'ready') return;
      const { uri, side, grounds } = freshState(document.uri.toString());
      if (open.has(uri)) return;
      link
        .request('lugwork/prepareScene', { uri, side, grounds, evenBroken: false })
        .catch((error: unknown) => link.output.warn(`drawing beforehand: ${String(error)}`));
    }, lookMs);
  };
  const disposables = [
    window.onDidChangeActiveTextEditor(prepare),
    link.onDidChangeState((state) => {
      if (state === 'ready') prepare();
    }),
  ];
  prepare();
  return {
    dispose() {
      clearTimeout(timer);
      disposables.forEach((one) => void one.dispose());
    },
  };
}
