/** The outline: parts, wires, expectations and the rest, each kind under its own heading, in the order of the text. */
import { type DocumentSymbol, type Range, SymbolKind } from 'vscode-languageserver';
import {
  type BodyStatement,
  type PartStatement,
  type Statement,
  type TypeStatement,
  type Word,
  visible,
} from '../../../language/grammar/index.js';
import { rolesOfPart, roleText } from '../../../language/roles/index.js';
import { toRange } from '../to-protocol.js';
import { inFile, textIn } from '../places.js';
import { kindOf } from '../symbol-kinds.js';
import type { Snapshot } from '../workspace.js';
import { type Feature, onDocument } from '../feature.js';

export const documentSymbols: Feature = {
  capabilities: { documentSymbolProvider: { label: 'Lugwork' } },
  register(service) {
    service.connection.onDocumentSymbol(onDocument(service, 'outline', null, outline));
  },
};

const headings: Partial<Readonly<Record<Statement['kind'], string>>> = {
  use: 'Other files',
  type: 'Types',
  part: 'Parts',
  wire: 'Wires',
  solder: 'Wires',
  cavity: 'Cavities and plates',
  channel: 'Cavities and plates',
  plate: 'Cavities and plates',
  place: 'Cavities and plates',
  expect: 'Expectations',
  measured: 'Readings',
  allow: 'Set aside',
};

function outline(at: Snapshot): DocumentSymbol[] {
  const groups = new Map<string, DocumentSymbol[]>();
  const symbols: DocumentSymbol[] = [];
  for (const statement of at.tree.statements) {
    const heading = headings[statement.kind];
    const made = symbolsOf(at, statement);
    if (heading === undefined) symbols.push(...made);
    else groups.set(heading, [...(groups.get(heading) ?? []), ...made]);
  }
  for (const [name, children] of groups) {
    const [first, last] = [children[0], children[children.length - 1]];
    if (first === undefined || last === undefined) continue;
    symbols.push({
      name,
      detail: String(children.length),
      kind: SymbolKind.Namespace,
      range: { start: first.range.start, end: last.range.end },
      selectionRange: first.selectionRange,
      children,
    });
  }
  return symbols;
}

function symbolsOf(at: Snapshot, statement: Statement): DocumentSymbol[] {
  const { line } = statement;
  const range = toRange({ uri: at.uri, ...inFile(line, statement.range) });
  const symbol: MakeSymbol = (name, kind, more = {}) => ({
    // An empty name is not allowed: a statement that is still being written shows its word.
    name: name === '' ? statement.kind : name,
    kind,
    range,
    selectionRange: range,
    ...more,
  });
  const rest = (): string => oneLine(textIn(at.text, range).replace(/^\S+\s*/, ''));
  switch (statement.kind) {
    case 'instrument':
      return [symbol(statement.title?.text ?? '', SymbolKind.Module)];
    case 'use':
      return [symbol(statement.path.text, SymbolKind.File)];
    case 'part':
      return statement.names.map((name) => partSymbol(at, statement, name, symbol));
    case 'type':
      return [symbol(statement.name.text, SymbolKind.Class, { detail: statement.base.text, children: insides(at, statement) })];
    case 'wire':
      return [symbol(rest(), SymbolKind.Field, { detail: '' })];
    case 'solder':
      return [symbol(rest(), SymbolKind.Field, { detail: 'solder' })];
    case 'cavity':
    case 'plate':
      return [symbol(statement.name.text, SymbolKind.Package, { detail: statement.kind })];
    case 'expect':
      return [symbol(rest(), SymbolKind.Boolean)];
    case 'measured':
      return [symbol(rest(), SymbolKind.Number)];
    case 'allow':
      return [symbol(statement.rule.text, SymbolKind.Null, { detail: statement.why?.text ?? '' })];
    case 'actual':
      return [symbol(statement.name.text, SymbolKind.Number, { detail: rest() })];
    case 'record':
    case 'rig':
    case 'build':
      return [symbol(statement.kind, SymbolKind.Object, { detail: rest() })];
    default:
      return [symbol(`${statement.kind} ${rest()}`, SymbolKind.Object)];
  }
}

/** Makes a symbol of the statement in hand. */
type MakeSymbol = (name: string, kind: SymbolKind, more?: Partial<DocumentSymbol>) => DocumentSymbol;

/** A part with the positions that it names, if it is a switch. */
function partSymbol(at: Snapshot, { line, type, values }: PartStatement, name: Word, symbol: MakeSymbol): DocumentSymbol {
  const selectionRange = inFile(line, name.range) as Range;
  const part = at.circuit.parts.find((one) => one.nameRange.uri === at.uri && isAt(one.nameRange, selectionRange));
  const control = at.circuit.switches.find((one) => one.part === part?.id);
  const children = (control?.positions ?? []).flatMap(({ label, range }): DocumentSymbol[] =>
    range?.uri === at.uri
      ? [{ name: label, kind: SymbolKind.EnumMember, range: toRange(range), selectionRange: toRange(range) }]
      : [],
  );
  const said = `${type.text} ${values.map(({ text }) => text).join(' ')}`.trim();
  // A name that says what the part is for needs no second word.
  const roles = part === undefined ? [] : rolesOfPart(at.circuit, part.id).filter(({ word }) => word !== name.text);
  const detail = [said, ...roles.map((role) => roleText(at.circuit, role))].join(' · ');
  return symbol(name.text, kindOf(part?.family), { detail, selectionRange, ...(children.length > 0 ? { children } : {}) });
}

/** Lugs, positions, parts and elements of a type. */
function insides(at: Snapshot, type: TypeStatement): DocumentSymbol[] {
  const words = (statement: BodyStatement): { words: readonly { text: string; range: Range }[]; kind: SymbolKind } => {
    switch (statement.kind) {
      case 'lugs':
      case 'optional':
        return { words: statement.names, kind: SymbolKind.Variable };
      case 'positions':
        return { words: statement.names, kind: SymbolKind.EnumMember };
      case 'part':
        return { words: statement.names, kind: SymbolKind.Property };
      case 'element':
        return {
          words: statement.name === undefined ? [] : [statement.name],
          kind: SymbolKind.Property,
        };
      default:
        return { words: [], kind: SymbolKind.Null };
    }
  };
  return type.body.flatMap((statement) => {
    const { words: names, kind } = words(statement);
    return names
      .filter(({ text }) => text !== '')
      .map(({ text, range: local }) => {
        const range = inFile(statement.line, local) as Range;
        return { name: text, kind, range, selectionRange: range };
      });
  });
}

function isAt(a: Range, b: Range): boolean {
  return a.start.line === b.start.line && a.start.character === b.start.character;
}

function oneLine(text: string): string {
  return visible(text).replace(/\s+/g, ' ').trim();
}
