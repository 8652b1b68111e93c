/** A group of neighbouring statements that wires some parts together, distinguished from what it hangs on, so that another one alike is known. */
import { firstOf } from '../../../language/collections.js';
import { lugById, type Circuit, type LugId, type PartId } from '../../../language/circuit/index.js';
import type { DottedName, PartStatement, SolderStatement, Statement, WireStatement } from '../../../language/grammar/index.js';

export type GroupStatement = PartStatement | WireStatement | SolderStatement;

export interface Group {
  readonly statements: readonly GroupStatement[];
  /** Its parts in their order. */
  readonly parts: readonly string[];
  /** Lugs of other parts that it is soldered to, in the order in which they are named. */
  readonly outside: readonly string[];
  /** Equal for groups that differ in the names of their parts and in what they hang on alone. */
  readonly shape: string;
}

/** The group that neighbouring statements make; undefined where they are no such thing. */
export function groupOf(statements: readonly Statement[]): Group | undefined {
  if (!statements.every(isGroupStatement)) return undefined;
  const own = statements.flatMap((statement) => (statement.kind === 'part' ? statement.names.map(({ text }) => text) : []));
  // Several parts in one statement, or a screen, would not be alike one by one.
  const isPlain = statements.every((statement) =>
    statement.kind === 'part' ? statement.names.length === 1 : statement.kind !== 'wire' || statement.screens.length === 0,
  );
  if (own.length === 0 || !isPlain || new Set(own).size < own.length) return undefined;
  const outside: string[] = [];
  const end = ({ path }: DottedName): string => {
    const index = own.indexOf(firstOf(path).text);
    if (index >= 0)
      return `own ${index} ${path
        .slice(1)
        .map(({ text }) => text)
        .join('.')}`;
    const label = labelOf(path);
    if (!outside.includes(label)) outside.push(label);
    return `outside ${outside.indexOf(label)}`;
  };
  const shape = statements.map((statement) => {
    if (statement.kind !== 'part')
      return [statement.kind, statement.ends.map(end), 'options' in statement ? statement.options.map(({ text }) => text) : []];
    const { type, values, ends, properties } = statement;
    const braces = properties.map(({ name, values: said }) => [name.text, said.map(({ text }) => text)]);
    return [
      'part',
      type.text,
      values.map(({ text }) => text),
      ends === undefined ? [] : [ends.form, end(ends.a), end(ends.b)],
      braces,
    ];
  });
  return { statements, parts: own, outside, shape: JSON.stringify(shape) };
}

/** Every group of the same shape, this one among them, none sharing a statement with another. */
export function repeatsOf(group: Group, all: readonly Statement[]): readonly Group[] {
  const first = all.indexOf(firstOf(group.statements));
  const { length } = group.statements;
  const found: Group[] = [];
  for (let at = 0; at + length <= all.length; at++) {
    const overlaps = at !== first && at > first - length && at < first + length;
    const candidate = overlaps ? undefined : groupOf(all.slice(at, at + length));
    if (candidate?.shape !== group.shape) continue;
    found.push(candidate);
    at += length - 1;
  }
  return found;
}

/** Lugs of a group's parts that statements outside of it name, by part and lug; undefined where a part is named for something else than its lugs. */
export function exposedLugs(
  circuit: Circuit,
  uri: string,
  { parts, statements }: Group,
): readonly (readonly [number, string])[] | undefined {
  const lines = statements.map(({ line, range }) => [line, line + range.end.line] as const);
  const isOwn = (line: number): boolean => lines.some(([from, to]) => line >= from && line <= to);
  const ids = new Map<PartId, number>(
    circuit.parts.flatMap(({ id, name }) => (parts.includes(name) ? [[id, parts.indexOf(name)] as const] : [])),
  );
  const lugAt = new Map<string, LugId>();
  for (const lug of circuit.lugs)
    if (ids.has(lug.part)) for (const use of lug.uses) lugAt.set(`${use.uri} ${use.start.line} ${use.start.character}`, lug.id);
  const found = new Map<string, readonly [number, string]>();
  for (const { kind, part, range } of circuit.names) {
    const index = part === undefined ? undefined : ids.get(part);
    if (index === undefined || (range.uri === uri && isOwn(range.start.line))) continue;
    // A lug is noted by its part and by its own name; the part's mention says where the whole begins.
    if (kind !== 'part') continue;
    const lug = lugAt.get(`${range.uri} ${range.start.line} ${range.start.character}`);
    if (lug === undefined) return undefined;
    const { name } = lugById(circuit, lug);
    found.set(`${index} ${name}`, [index, name]);
  }
  return [...found.values()];
}

export function labelOf(path: DottedName['path']): string {
  return path.map(({ text }) => text).join('.');
}

function isGroupStatement(statement: Statement): statement is GroupStatement {
  return statement.kind === 'part' || statement.kind === 'wire' || statement.kind === 'solder';
}
