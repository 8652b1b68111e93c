/** The bench sheet beside the text: its commands, its panels, and their return after a reload. */
import { commands, Uri, ViewColumn, window, workspace, type Disposable, type ExtensionContext, type WebviewPanel } from 'vscode';
import { createNonce, panelPage } from '../preview/html.js';
import type { ServerLink } from '../server-link.js';
import { createSheetPanel, type SheetPanel } from './panel.js';
import type { SheetState } from './protocol.js';
import { createTicks } from './ticks.js';

const viewType = 'lugworkSheet';

/** Milliseconds without a keystroke after which a changed text is read. */
const restMs = 250;

/** Registers everything about the sheet. */
export function registerSheet(link: ServerLink, context: ExtensionContext): Disposable {
  const dist = Uri.joinPath(context.extensionUri, 'dist');
  const storage = Uri.joinPath(context.globalStorageUri, 'sheets');
  const ticks = createTicks(context.workspaceState);
  const open = new Map<string, SheetPanel>();
  const options = { enableScripts: true, localResourceRoots: [dist] };

  const show = (panel: WebviewPanel, state: SheetState): SheetPanel => {
    panel.webview.options = options;
    const icon = (name: string): Uri => Uri.joinPath(context.extensionUri, 'extension', 'icons', name);
    panel.iconPath = { light: icon('lug-light.svg'), dark: icon('lug-dark.svg') };
    const one = createSheetPanel(panel, link, ticks, storage, state);
    open.set(state.uri, one);
    panel.onDidDispose(() => open.delete(state.uri));
    const addressOf = (name: string): string => panel.webview.asWebviewUri(Uri.joinPath(dist, name)).toString();
    panel.webview.html = panelPage({
      title: 'Bench sheet',
      script: addressOf('sheet-panel.js'),
      style: addressOf('sheet-panel.css'),
      source: panel.webview.cspSource,
      nonce: createNonce(),
    });
    return one;
  };
  const openSheet = (asked?: unknown): SheetPanel | undefined => {
    const document = window.activeTextEditor?.document;
    const uri = asked instanceof Uri ? asked : document?.languageId === 'lugwork' ? document.uri : undefined;
    if (uri === undefined) {
      void window.showInformationMessage('Open a circuit first: its bench sheet stands beside it.');
      return undefined;
    }
    const known = open.get(uri.toString());
    if (known === undefined) {
      const place = { viewColumn: ViewColumn.Beside, preserveFocus: true };
      return show(window.createWebviewPanel(viewType, 'Bench Sheet', place, options), { uri: uri.toString(), number: 1 });
    }
    known.panel.reveal(undefined, true);
    return known;
  };
  /** The sheet that has the keyboard, else that of the text, opened where there is none. */
  const active = (): SheetPanel | undefined => [...open.values()].find(({ panel }) => panel.active) ?? openSheet();

  const own = [
    { id: 'lugwork.openSheet', run: (asked?: unknown) => void openSheet(asked) },
    { id: 'lugwork.printSheet', run: () => active()?.print() },
    { id: 'lugwork.saveSheet', run: () => active()?.save() },
  ];

  let timer: ReturnType<typeof setTimeout> | undefined;
  const changed = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => open.forEach((one) => one.textChanged()), restMs);
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
      if (state === 'ready') changed();
    }),
  ];
  return {
    dispose: () => {
      clearTimeout(timer);
      disposables.forEach((one) => void one.dispose());
      open.forEach(({ panel }) => panel.dispose());
    },
  };
}

/** The state in a value that was kept, or undefined where it is none. */
function readState(value: unknown): SheetState | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { uri, number } = value as Partial<SheetState>;
  if (typeof uri !== 'string') return undefined;
  return { uri, number: typeof number === 'number' && number >= 1 ? Math.floor(number) : 1 };
}
