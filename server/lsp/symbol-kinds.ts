/** The symbol kind of each kind of part, so that an outline can be read at a glance. */
import { CompletionItemKind, SymbolKind } from 'vscode-languageserver';
import type { Family } from '../../language/circuit/index.js';

const kinds: Readonly<Record<Family, readonly [SymbolKind, CompletionItemKind]>> = {
  pickup: [SymbolKind.Event, CompletionItemKind.Event],
  switch: [SymbolKind.Enum, CompletionItemKind.Enum],
  control: [SymbolKind.Property, CompletionItemKind.Property],
  passive: [SymbolKind.Constant, CompletionItemKind.Constant],
  metal: [SymbolKind.Object, CompletionItemKind.Unit],
  amplifier: [SymbolKind.Function, CompletionItemKind.Function],
  assembly: [SymbolKind.Struct, CompletionItemKind.Struct],
  jack: [SymbolKind.Interface, CompletionItemKind.Interface],
  cavity: [SymbolKind.Package, CompletionItemKind.Folder],
  plate: [SymbolKind.Package, CompletionItemKind.Folder],
  screen: [SymbolKind.Object, CompletionItemKind.Unit],
};

export function kindOf(family: Family | undefined): SymbolKind {
  return family === undefined ? SymbolKind.Variable : kinds[family][0];
}

export function completionKindOf(family: Family | undefined): CompletionItemKind {
  return family === undefined ? CompletionItemKind.Variable : kinds[family][1];
}
