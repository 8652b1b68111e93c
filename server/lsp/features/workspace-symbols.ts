/** Parts, types, cavities and titles of all files, found by a few of their letters. */
import { typesOf } from '../../../language/circuit/index.js';
import { SymbolKind, type SymbolInformation } from 'vscode-languageserver';
import { kindOf } from '../symbol-kinds.js';
import { toLocation } from '../to-protocol.js';
import type { Snapshot } from '../workspace.js';
import type { Feature } from '../feature.js';

export const workspaceSymbols: Feature = {
  capabilities: { workspaceSymbolProvider: true },
  register({ connection, guard, workspace }) {
    connection.onWorkspaceSymbol(
      guard.request('symbols', null, async ({ query }: { readonly query: string }, token) => {
        const snapshots = await workspace.snapshots();
        if (token.isCancellationRequested) return null;
        return snapshots.flatMap(symbolsOf).filter(({ name }) => isSubsequence(query.toLowerCase(), name.toLowerCase()));
      }),
    );
  },
};

function symbolsOf({ uri, circuit }: Snapshot): SymbolInformation[] {
  const title = circuit.title ?? uri.slice(uri.lastIndexOf('/') + 1);
  const symbols: SymbolInformation[] = [];
  if (circuit.title !== undefined && circuit.titleRange !== undefined)
    symbols.push({ name: circuit.title, kind: SymbolKind.Module, location: toLocation(circuit.titleRange) });
  for (const part of circuit.parts) {
    // What stands inside an assembly is found at its type; metal of a cavity is the cavity.
    if (part.parent !== undefined || part.nameRange.uri !== uri || ['cavity', 'plate', 'screen'].includes(part.family)) continue;
    symbols.push({ name: part.name, kind: kindOf(part.family), location: toLocation(part.nameRange), containerName: title });
  }
  for (const place of [...circuit.cavities, ...circuit.plates]) {
    if (place.nameRange.uri !== uri) continue;
    symbols.push({ name: place.name, kind: SymbolKind.Package, location: toLocation(place.nameRange), containerName: title });
  }
  for (const type of typesOf(circuit)) {
    if (type.nameRange.uri !== uri) continue;
    symbols.push({ name: type.name, kind: SymbolKind.Class, location: toLocation(type.nameRange), containerName: title });
  }
  return symbols;
}

/** The letters in their order, others between them: how editors match what is typed. */
function isSubsequence(letters: string, word: string): boolean {
  let at = 0;
  for (const letter of letters) {
    at = word.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
