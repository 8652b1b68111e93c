/** What the readings of a circuit tell, as a document of its own beside it that follows each reading written in. */
import {
  commands,
  DocumentLink,
  EventEmitter,
  l10n,
  languages,
  Range,
  Uri,
  workspace,
  type Disposable,
  type DocumentSymbol,
  type TextDocument,
  type TextDocumentContentProvider,
} from 'vscode';
import type { ServerLink } from './server-link.js';
import { wrapped } from './wrapped.js';

const scheme = 'lugwork-located';

/** The address of what is located for a circuit; its own address stands in the query. */
export function locatedUri(circuit: Uri): Uri {
  const name = circuit.path.slice(circuit.path.lastIndexOf('/') + 1).replace(/\.lug$/, '');
  return Uri.from({ scheme, path: `/${l10n.t('Faults of {0}', name)}.txt`, query: circuit.toString() });
}

/** Registers the addresses; an open one is made anew when its circuit changes. */
export function registerLocated(link: ServerLink): Disposable {
  const changed = new EventEmitter<Uri>();
  const provider: TextDocumentContentProvider = {
    onDidChange: changed.event,
    provideTextDocumentContent: async ({ query }) =>
      wrapped((await link.request('lugwork/locate', { uri: query })) ?? l10n.t('The circuit can’t be read.')),
  };
  const isOpen = (uri: Uri): boolean => workspace.textDocuments.some((document) => document.uri.toString() === uri.toString());
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const registered = [
    changed,
    workspace.registerTextDocumentContentProvider(scheme, provider),
    languages.registerDocumentLinkProvider({ scheme }, { provideDocumentLinks: linksOf }),
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (document.languageId !== 'lugwork' || contentChanges.length === 0) return;
      const uri = locatedUri(document.uri);
      if (!isOpen(uri)) return;
      // Between two letters of a reading nothing is to be said.
      clearTimeout(waiting);
      waiting = setTimeout(() => changed.fire(uri), 300);
    }),
  ];
  return {
    dispose: () => {
      clearTimeout(waiting);
      for (const one of registered) one.dispose();
    },
  };
}

/** A link at each part, or lug of a part, that is named: it leads to the part's line in the circuit. */
async function linksOf(document: TextDocument): Promise<DocumentLink[]> {
  const circuit = Uri.parse(document.uri.query, true);
  const symbols = await commands.executeCommand<DocumentSymbol[] | undefined>('vscode.executeDocumentSymbolProvider', circuit);
  const parts = new Map(
    (symbols ?? []).flatMap(({ children }) => children).map(({ name, selectionRange }) => [name, selectionRange.start.line]),
  );
  const links: DocumentLink[] = [];
  for (const { index, 0: name } of document.getText().matchAll(/[\p{L}_][\p{L}\p{N}_-]*(?:\.[\p{L}\p{N}_-]+)*/gu)) {
    const line = parts.get(name.split('.')[0] ?? name);
    if (line === undefined) continue;
    const range = new Range(document.positionAt(index), document.positionAt(index + name.length));
    links.push(new DocumentLink(range, circuit.with({ fragment: `L${line + 1}` })));
  }
  return links;
}
