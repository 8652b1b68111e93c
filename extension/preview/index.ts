/** The drawing beside the text: its commands, its panels, and their return after a reload. */
import { commands, languages, Uri, ViewColumn, window, workspace, type Disposable, type WebviewPanel } from 'vscode';
import type { ServerLink } from '../server-link.js';
import { createNonce, panelPage } from './html.js';
import { createDrawingPanel, type DrawingPanel } from './panel.js';
import type { PanelState } from './protocol.js';
import { freshState, readState } from './state.js';

const viewType = 'lugworkDrawing';

/** Milliseconds without a keystroke after which a changed text is drawn. */
const restMs = 120;

/** Milliseconds after which a circuit that is being looked at is drawn beforehand. */
const lookMs = 250;

/** Registers everything about the panel; `extension` is the folder of the extension. */
export function registerPreview(link: ServerLink, extension: Uri): Disposable {
  const dist = Uri.joinPath(extension, 'dist');
  const open = new Map<string, DrawingPanel>();
  const options = { enableScripts: true, localResourceRoots: [dist] };

  const show = (panel: WebviewPanel, state: PanelState): void => {
    panel.webview.options = options;
    const icon = (name: string): Uri => Uri.joinPath(extension, 'extension', 'icons', name);
    panel.iconPath = { light: icon('lug-light.svg'), dark: icon('lug-dark.svg') };
    const one = createDrawingPanel(panel, link, state);
    open.set(state.uri, one);
    panel.onDidDispose(() => open.delete(state.uri));
    const addressOf = (name: string): string => panel.webview.asWebviewUri(Uri.joinPath(dist, name)).toString();
    panel.webview.html = panelPage({
      script: addressOf('drawing-panel.js'),
      style: addressOf('drawing-panel.css'),
      source: panel.webview.cspSource,
      nonce: createNonce(),
    });
  };
  const active = (): DrawingPanel | undefined =>
    [...open.values()].find(({ panel }) => panel.active) ?? open.get(window.activeTextEditor?.document.uri.toString() ?? '');
  const own = [
    {
      id: 'lugwork.openDrawing',
      run: (asked?: unknown) => {
        const document = window.activeTextEditor?.document;
        const uri = asked instanceof Uri ? asked : document?.languageId === 'lugwork' ? document.uri : undefined;
        if (uri === undefined) return void window.showInformationMessage('Open a circuit first: its drawing stands beside it.');
        const known = open.get(uri.toString());
        if (known !== undefined) return known.panel.reveal(undefined, true);
        const place = { viewColumn: ViewColumn.Beside, preserveFocus: true };
        show(window.createWebviewPanel(viewType, 'Drawing', place, options), freshState(uri.toString()));
      },
    },
    { id: 'lugwork.exportDrawingSvg', run: () => exportAs('svg') },
    { id: 'lugwork.exportDrawingPng', run: () => exportAs('png') },
  ];
  function exportAs(format: 'svg' | 'png'): void {
    const one = active();
    if (one === undefined) void window.showInformationMessage('Open the drawing first, then export what it shows.');
    else one.export(format);
  }

  let timer: ReturnType<typeof setTimeout> | undefined;
  const changed = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => open.forEach((one) => one.textChanged()), restMs);
  };
  /** The first drawing is what takes time; when the panel is opened it is there. */
  let looking: ReturnType<typeof setTimeout> | undefined;
  const prepare = (): void => {
    clearTimeout(looking);
    looking = setTimeout(() => {
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
    ...own.map(({ id, run }) => commands.registerCommand(id, run)),
    window.registerWebviewPanelSerializer(viewType, {
      deserializeWebviewPanel: async (panel, value: unknown) => {
        const state = readState(value);
        if (state === undefined || open.has(state.uri)) panel.dispose();
        else show(panel, state);
      },
    }),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (document.languageId === 'lugwork') changed();
    }),
    link.onDidChangeState((state) => {
      if (state !== 'ready') return;
      changed();
      prepare();
    }),
    window.onDidChangeActiveTextEditor(prepare),
    languages.onDidChangeDiagnostics(({ uris }) => uris.forEach((uri) => open.get(uri.toString())?.findingsChanged())),
    window.onDidChangeTextEditorSelection(({ textEditor: { document }, selections }) => {
      if (document.languageId !== 'lugwork') return;
      open.forEach((one) => one.cursorMoved(document.uri, selections[0]!.active));
    }),
  ];
  prepare();
  return {
    dispose: () => {
      clearTimeout(timer);
      clearTimeout(looking);
      disposables.forEach((one) => void one.dispose());
      open.forEach(({ panel }) => panel.dispose());
    },
  };
}
