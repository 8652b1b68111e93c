/** Circuits compared, in the source control view's own terms: with the last commit, with another file, and line by line in the gutter. */
import { commands, Uri, ViewColumn, window, workspace, type Disposable, type WebviewPanel } from 'vscode';
import { findCircuits } from '../find-circuits.js';
import { createNonce, panelPage } from '../preview/html.js';
import type { ServerLink } from '../server-link.js';
import { registerGutter } from './gutter.js';
import { createComparePanel, type ComparePanel } from './panel.js';
import type { Against, CompareState } from './protocol.js';

const viewType = 'lugworkCompare';

/** Milliseconds without a keystroke after which a changed text is compared. */
const restMs = 300;

/** Registers everything about comparisons; `extension` is the folder of the extension. */
export function registerCompare(link: ServerLink, extension: Uri): Disposable {
  const dist = Uri.joinPath(extension, 'dist');
  const open = new Map<string, ComparePanel>();
  const options = { enableScripts: true, localResourceRoots: [dist] };
  const keyOf = ({ uri, against }: CompareState): string => `${uri} ${against.kind === 'file' ? against.uri : ''}`;

  const show = (panel: WebviewPanel, state: CompareState): void => {
    panel.webview.options = options;
    const icon = (name: string): Uri => Uri.joinPath(extension, 'extension', 'icons', name);
    panel.iconPath = { light: icon('lug-light.svg'), dark: icon('lug-dark.svg') };
    open.set(keyOf(state), createComparePanel(panel, link, state));
    panel.onDidDispose(() => open.delete(keyOf(state)));
    const addressOf = (name: string): string => panel.webview.asWebviewUri(Uri.joinPath(dist, name)).toString();
    panel.webview.html = panelPage({
      title: 'Circuits compared',
      script: addressOf('compare-panel.js'),
      style: addressOf('compare-panel.css'),
      source: panel.webview.cspSource,
      nonce: createNonce(),
    });
  };
  const compare = (uri: Uri, against: Against): void => {
    const state = { uri: uri.toString(), against };
    const known = open.get(keyOf(state));
    if (known !== undefined) return known.panel.reveal(undefined, true);
    const place = { viewColumn: ViewColumn.Beside, preserveFocus: true };
    show(window.createWebviewPanel(viewType, 'Changes', place, options), state);
  };
  const withFile = async (uri: Uri): Promise<void> => {
    const others = (await findCircuits()).filter((other) => other.toString() !== uri.toString());
    const items = others.map((other) => ({ label: workspace.asRelativePath(other), other }));
    const chosen = await window.showQuickPick(items, {
      placeHolder: `The circuit from which ${workspace.asRelativePath(uri)} differs`,
    });
    if (chosen !== undefined) compare(uri, { kind: 'file', uri: chosen.other.toString() });
  };
  const own: readonly { readonly id: string; run(uri: Uri, other?: unknown): void | Promise<void> }[] = [
    { id: 'lugwork.compareWithCommit', run: (uri) => compare(uri, { kind: 'commit' }) },
    {
      id: 'lugwork.compareWithFile',
      run: (uri, other) => (other instanceof Uri ? compare(uri, { kind: 'file', uri: other.toString() }) : withFile(uri)),
    },
  ];

  let timer: ReturnType<typeof setTimeout> | undefined;
  const changed = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => open.forEach((one) => one.textChanged()), restMs);
  };
  const disposables = [
    ...own.map(({ id, run }) =>
      commands.registerCommand(id, (asked?: unknown, other?: unknown) => {
        const uri = circuitAsked(asked);
        return uri === undefined
          ? void window.showInformationMessage('Choose a circuit (a .lug file) to compare.')
          : run(uri, other);
      }),
    ),
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
    workspace.onDidSaveTextDocument(changed),
    link.onDidChangeState((state) => {
      if (state === 'ready') changed();
    }),
    registerGutter(link, extension),
  ];
  return {
    dispose: () => {
      clearTimeout(timer);
      disposables.forEach((one) => void one.dispose());
      open.forEach(({ panel }) => panel.dispose());
    },
  };
}

/** What a menu hands over: an address, a row of the source control view, or nothing where the open text is meant. */
function circuitAsked(asked: unknown): Uri | undefined {
  const row = typeof asked === 'object' && asked !== null && 'resourceUri' in asked ? asked.resourceUri : asked;
  const document = window.activeTextEditor?.document;
  const uri = row instanceof Uri ? row : document?.languageId === 'lugwork' ? document.uri : undefined;
  return uri?.path.endsWith('.lug') === true ? uri : undefined;
}

/** The state in a value that was kept, or undefined where it is none. */
function readState(value: unknown): CompareState | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { uri, against } = value as Partial<CompareState>;
  if (typeof uri !== 'string' || typeof against !== 'object' || against === null) return undefined;
  if (against.kind === 'commit') return { uri, against: { kind: 'commit' } };
  return against.kind === 'file' && typeof against.uri === 'string'
    ? { uri, against: { kind: 'file', uri: against.uri } }
    : undefined;
}
