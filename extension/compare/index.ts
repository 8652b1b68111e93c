/** Circuits compared, in the source control view's own terms: with the last commit, with another file, and line by line in the gutter. */
import { commands, l10n, Uri, window, workspace, type Disposable } from 'vscode';
import { activeCircuit } from '../active-circuit.js';
import { findCircuits } from '../find-circuits.js';
import { createPanelHost } from '../panel-host.js';
import type { ServerLink } from '../server-link.js';
import { registerGutter } from './gutter.js';
import { createComparePanel, type ComparePanel } from './panel.js';
import type { Against, CompareState } from './protocol.js';

/** Registers everything about comparisons; `extension` is the folder of the extension. */
export function registerCompare(link: ServerLink, extension: Uri): Disposable {
  const host = createPanelHost<CompareState, ComparePanel>(link, extension, {
    viewType: 'lugworkCompare',
    title: l10n.t('Changes'),
    pageTitle: l10n.t('Comparison of Circuits'),
    page: 'compare-panel',
    restMs: 300,
    keyOf: ({ uri, against }) => `${uri} ${against.kind === 'file' ? against.uri : ''}`,
    readState,
    create: (panel, state) => createComparePanel(panel, link, state),
  });
  const compare = (uri: Uri, against: Against): void => void host.reveal({ uri: uri.toString(), against });
  const withFile = async (uri: Uri): Promise<void> => {
    const others = (await findCircuits()).filter((other) => other.toString() !== uri.toString());
    const items = others.map((other) => ({ label: workspace.asRelativePath(other), other }));
    // Files of one folder together, those of the folder itself first.
    const depth = ({ label }: { readonly label: string }): number => label.split('/').length;
    items.sort((a, b) => depth(a) - depth(b) || a.label.localeCompare(b.label, undefined, { numeric: true }));
    const chosen = await window.showQuickPick(items, {
      placeHolder: l10n.t('Choose the circuit to compare {0} with', workspace.asRelativePath(uri)),
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
  const disposables = [
    ...own.map(({ id, run }) =>
      commands.registerCommand(id, (asked?: unknown, other?: unknown) => {
        const uri = circuitAsked(asked);
        return uri === undefined
          ? void window.showInformationMessage(l10n.t('Choose a circuit (a .lug file) to compare.'))
          : run(uri, other);
      }),
    ),
    workspace.onDidSaveTextDocument(host.changed),
    registerGutter(link, extension),
    host,
  ];
  return { dispose: () => disposables.forEach((one) => void one.dispose()) };
}

/** What a menu hands over: an address, a row of the source control view, or nothing where the open text is meant. */
function circuitAsked(asked: unknown): Uri | undefined {
  const row = typeof asked === 'object' && asked !== null && 'resourceUri' in asked ? asked.resourceUri : asked;
  const uri = row instanceof Uri ? row : activeCircuit();
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
