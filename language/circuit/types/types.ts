/** The types that a text can name: its own, those of the files it uses, and the standard ones, each compiled when it is first needed. */
import type { Tree, TypeStatement } from '../../grammar/index.js';
import { isLibraryUri } from '../../parts/index.js';
import { createSpelling, type Spelling } from '../../nearest.js';
import { isBase } from './bases.js';
import { compileType } from './compile-type.js';
import { LIBRARY } from './generated/library-trees.js';
import type { Circuit, NameUse, TypeInfo } from '../model.js';
import { Problems } from '../problems.js';
import { isMissing, rangeOn } from '../ranges.js';
import type { TypeContext, TypeFound } from './type-draft.js';
import type { CompiledType } from './type-model.js';

/** Types are built on one another at most this deep; no text needs more, and a text of nonsense must not exhaust the stack. */
const LONGEST_ROW = 64;

interface Entry {
  readonly statement: TypeStatement;
  readonly uri: string;
  compiled?: CompiledType;
}

/** A standard type whose statement is read when it is first needed: a circuit needs a few of many. */
class StoredEntry implements Entry {
  compiled?: CompiledType;
  #statement: TypeStatement | undefined;

  constructor(
    readonly uri: string,
    private readonly json: string,
  ) {}

  get statement(): TypeStatement {
    return (this.#statement ??= JSON.parse(this.json) as TypeStatement);
  }
}

/** Where a file's names and problems go. */
export type Sink = (uri: string) => { readonly problems: Problems; readonly names: NameUse[] };

export class TypeScope {
  readonly #entries = new Map<string, Entry>();
  readonly #compiling: string[] = [];
  #spelling: Spelling | undefined;

  /** `trees` declare types in their order; `beneath` has those that a text need not declare. */
  constructor(
    trees: readonly Tree[],
    readonly sink: Sink,
    readonly beneath?: TypeScope,
  ) {
    for (const tree of trees) {
      for (const statement of tree.statements) if (statement.kind === 'type') this.#declare(statement, tree.uri);
    }
  }

  /** A type of the library, which has been proven to be right. */
  store(name: string, entry: StoredEntry): void {
    this.#entries.set(name, entry);
  }

  /** Looks a name up, compiling the type where that was not done. */
  find(name: string): TypeFound {
    const entry = this.#entries.get(name);
    if (entry === undefined) return this.beneath?.find(name) ?? 'unknown';
    if (entry.compiled !== undefined) return entry.compiled;
    if (this.#compiling.includes(name)) {
      // A type of the user's own may be built on the standard type whose name it bears.
      const standard = this.#compiling.at(-1) === name ? this.beneath?.find(name) : undefined;
      return standard !== undefined && typeof standard !== 'string' ? standard : 'circle';
    }
    if (this.#compiling.length >= LONGEST_ROW) return 'deep';
    this.#compiling.push(name);
    entry.compiled = compileType(entry.statement, this.contextOf(entry.uri));
    this.#compiling.pop();
    return entry.compiled;
  }

  /** What the statements of a file need to name types. */
  contextOf(uri: string): TypeContext {
    return { uri, ...this.sink(uri), find: (name) => this.find(name), typeNames: () => this.spelling() };
  }

  /** Every name, own ones first. */
  names(): readonly string[] {
    const beneath = this.beneath?.names() ?? [];
    return [...this.#entries.keys(), ...beneath.filter((name) => !this.#entries.has(name))];
  }

  /** The same, for what a misspelt name was meant for: made once, when all types are declared. */
  spelling(): Spelling {
    if (this.#spelling === undefined) {
      this.#spelling = createSpelling();
      for (const name of this.names()) this.#spelling.add(name);
    }
    return this.#spelling;
  }

  /** Every type that is declared here, compiled: so that what is wrong with one that no part is made of is reported as well. */
  own(): readonly CompiledType[] {
    return [...this.#entries.keys()].flatMap((name) => {
      const found = this.find(name);
      return typeof found === 'string' ? [] : [found];
    });
  }

  #declare(statement: TypeStatement, uri: string): void {
    const name = statement.name.text;
    if (isMissing(statement.name)) return;
    const { problems, names } = this.sink(uri);
    const range = rangeOn({ uri, line: statement.line }, statement.name.range);
    const before = this.#entries.get(name);
    if (isBase(name)) {
      problems.add('duplicate-name', range, `${name} is a base for types; give the type another name`);
      return;
    }
    if (before !== undefined) {
      const other = rangeOn({ uri: before.uri, line: before.statement.line }, before.statement.name.range);
      problems.add('duplicate-name', range, `there is already a type ${name}`, {
        related: [{ message: 'the other type', range: other }],
      });
      return;
    }
    names.push({ kind: 'type', range, definition: range, isDefinition: true, name });
    const standard = this.beneath?.find(name);
    if (standard !== undefined && typeof standard !== 'string') {
      const related = [{ message: 'the standard type', range: standard.nameRange }];
      problems.add('duplicate-name', range, `${name} replaces the standard type of that name`, {
        severity: 'info',
        related,
      });
    }
    this.#entries.set(name, { statement, uri });
  }
}

let standard: TypeScope | undefined;

/** The standard library's trees, which the build has parsed. */
export function libraryTrees(): readonly Tree[] {
  return Object.entries(LIBRARY).map(([uri, types]) => ({
    uri,
    statements: Object.values(types).map((json) => JSON.parse(json) as TypeStatement),
    problems: [],
  }));
}

/** The standard types, compiled once for all circuits. A file of the library itself sees the others beneath it. */
export function standardTypes(uri: string): TypeScope {
  if (isLibraryUri(uri)) return libraryScope((file) => file !== uri);
  return (standard ??= libraryScope(() => true));
}

/** Every type that a circuit's text may name: its own, those of the files it uses, then the standard ones. */
export function typesOf({ uri, types = [] }: Pick<Circuit, 'uri' | 'types'>): readonly TypeInfo[] {
  const names = new Set(types.map(({ name }) => name));
  const beneath = standardTypes(uri).own();
  return [...types, ...beneath.map(({ info }) => info).filter(({ name }) => !names.has(name))];
}

/** Every type that comes with the language, with its lugs, parameters and positions: for completion and the reference. */
export function standardTypeInfos(): readonly TypeInfo[] {
  return standardTypes('')
    .own()
    .map((type) => type.info);
}

/** What is wrong with the library itself: nothing, which the tests prove. */
export function libraryProblems(): Problems['findings'] {
  const place = { problems: new Problems(), names: [] };
  new TypeScope(libraryTrees(), () => place).own();
  return place.problems.findings;
}

function libraryScope(keep: (uri: string) => boolean): TypeScope {
  const place = { problems: new Problems(), names: [] };
  const scope = new TypeScope([], () => place);
  for (const [uri, types] of Object.entries(LIBRARY)) {
    if (keep(uri)) for (const [name, json] of Object.entries(types)) scope.store(name, new StoredEntry(uri, json));
  }
  return scope;
}
