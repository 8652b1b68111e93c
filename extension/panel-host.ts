/** Webview panels of one kind: a state in one panel at most, its page, its return after a reload, and the news of a changed text for all of them. */
import { Uri, ViewColumn, window, workspace, type Disposable, type WebviewPanel } from 'vscode';
import { pageLanguage } from './localize.js';
import { createNonce, panelPage } from './preview/html.js';
import type { ServerLink } from './server-link.js';

export interface HostedPanel {
  readonly panel: WebviewPanel;
  textChanged(): void;
}

export interface PanelKind<State, Panel> {
  readonly viewType: string;
  /** What the tab is called until the panel says otherwise, and what the page is called. */
  readonly title: string;
  readonly pageTitle: string;
  /** Script and style in `dist`, without their endings. */
  readonly page: string;
  /** Milliseconds without a keystroke after which the panels learn of a changed text. */
  readonly restMs: number;
  keyOf(state: State): string;
  /** The state in a value that was kept, or undefined where it is none. */
  readState(value: unknown): State | undefined;
  create(panel: WebviewPanel, state: State): Panel;
}

export interface PanelHost<State, Panel> extends Disposable {
  readonly open: ReadonlyMap<string, Panel>;
  /** The panel that has the keyboard. */
  active(): Panel | undefined;
  /** Brings the state's panel to the front, made beside the text where there is none. */
  reveal(state: State): Panel;
  /** Tells all panels, after a rest, that a text has changed. */
  changed(): void;
}

/** `extension` is the folder of the extension. */
export function createPanelHost<State, Panel extends HostedPanel>(
  link: ServerLink,
  extension: Uri,
  kind: PanelKind<State, Panel>,
): PanelHost<State, Panel> {
  const dist = Uri.joinPath(extension, 'dist');
  const open = new Map<string, Panel>();
  const options = { enableScripts: true, localResourceRoots: [dist] };
  const show = (panel: WebviewPanel, state: State): Panel => {
    panel.webview.options = options;
    const icon = (name: string): Uri => Uri.joinPath(extension, 'extension', 'icons', name);
    panel.iconPath = { light: icon('lug-light.svg'), dark: icon('lug-dark.svg') };
    const one = kind.create(panel, state);
    open.set(kind.keyOf(state), one);
    panel.onDidDispose(() => open.delete(kind.keyOf(state)));
    const addressOf = (name: string): string => panel.webview.asWebviewUri(Uri.joinPath(dist, name)).toString();
    panel.webview.html = panelPage({
      ...pageLanguage(),
      title: kind.pageTitle,
      script: addressOf(`${kind.page}.js`),
      style: addressOf(`${kind.page}.css`),
      source: panel.webview.cspSource,
      nonce: createNonce(),
    });
    return one;
  };
  let timer: ReturnType<typeof setTimeout> | undefined;
  const changed = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => open.forEach((one) => one.textChanged()), kind.restMs);
  };
  const disposables = listeners(link, kind, open, { show, changed });
  return {
    open,
    active: () => [...open.values()].find(({ panel }) => panel.active),
    reveal(state) {
      const known = open.get(kind.keyOf(state));
      known?.panel.reveal(undefined, true);
      const place = { viewColumn: ViewColumn.Beside, preserveFocus: true };
      return known ?? show(window.createWebviewPanel(kind.viewType, kind.title, place, options), state);
    },
    changed,
    dispose() {
      clearTimeout(timer);
      disposables.forEach((one) => void one.dispose());
      open.forEach(({ panel }) => panel.dispose());
    },
  };
}

function listeners<State, Panel>(
  link: ServerLink,
  { viewType, keyOf, readState }: PanelKind<State, Panel>,
  open: ReadonlyMap<string, Panel>,
  { show, changed }: { show(this: void, panel: WebviewPanel, state: State): void; changed(this: void): void },
): readonly Disposable[] {
  return [
    window.registerWebviewPanelSerializer(viewType, {
      deserializeWebviewPanel: async (panel, value: unknown) => {
        const state = readState(value);
        if (state === undefined || open.has(keyOf(state))) panel.dispose();
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
}
