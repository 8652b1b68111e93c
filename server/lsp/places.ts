/** Places in a text and what stands there. */
import { firstOf, lastOf } from '../../language/collections.js';
import type { Position } from 'vscode-languageserver';
import type { Circuit, NameUse } from '../../language/circuit/index.js';
import { linesOf, type LocalRange, type Statement, type Tree } from '../../language/grammar/index.js';
import type { Place, SourceRange } from '../../language/source.js';
import { rulePage } from './texts/built-ins.js';

/** True where the place lies in the range or at one of its ends. */
export function touches({ start, end }: LocalRange, place: Position): boolean {
  return isBefore(start, place) && isBefore(place, end);
}

/** True where `a` is not behind `b`. */
export function isBefore(a: Place, b: Place): boolean {
  return a.line < b.line || (a.line === b.line && a.character <= b.character);
}

/** A range of a statement counted in the file. */
export function inFile(line: number, { start, end }: LocalRange): LocalRange {
  return {
    start: { line: start.line + line, character: start.character },
    end: { line: end.line + line, character: end.character },
  };
}

/** The statement on whose lines the place lies. */
export function statementAt(tree: Tree, { line }: Position): Statement | undefined {
  return tree.statements.find((statement) => statement.line <= line && line <= statement.line + statement.range.end.line);
}

/** The text in a range. */
export function textIn(text: string, { start, end }: LocalRange): string {
  const lines = linesOf(text).slice(start.line, end.line + 1);
  if (lines.length === 0) return '';
  lines[lines.length - 1] = lastOf(lines).slice(0, end.character);
  lines[0] = firstOf(lines).slice(start.character);
  return lines.join('\n');
}

/** The mention of a name at a place of a file. Where two meet at a dot, the one that begins there. */
export function useAt(circuit: Circuit, uri: string, place: Position): NameUse | undefined {
  const found = circuit.names.filter(({ range }) => range.uri === uri && touches(range, place));
  return found[found.length - 1];
}

/** Where a mentioned thing is declared; the page of a rule. */
export function definitionOf(circuit: Circuit, use: NameUse): SourceRange | undefined {
  if (use.definition !== undefined) return use.definition;
  if (use.kind === 'rule') {
    const uri = rulePage(use.name);
    const start = { line: 0, character: 0 };
    return uri === undefined ? undefined : { uri, start, end: start };
  }
  // A lug that `allow` names knows only its number.
  if (use.kind !== 'lug' || use.lug === undefined) return undefined;
  return circuit.names.find(({ kind, lug, definition }) => kind === 'lug' && lug === use.lug && definition !== undefined)
    ?.definition;
}

/** Equal for mentions of the same thing, in whatever file; undefined where it is not known what is meant. */
export function identityOf(circuit: Circuit, use: NameUse): string | undefined {
  const definition = definitionOf(circuit, use);
  if (definition !== undefined) return placeKey(definition);
  const part = use.part === undefined ? undefined : circuit.parts[use.part];
  if (part === undefined) return undefined;
  if (use.kind === 'part') return placeKey(part.nameRange);
  return `${use.kind} ${use.name} of ${placeKey(part.nameRange)}`;
}

export function placeKey({ uri, start }: SourceRange): string {
  return `${uri}#${start.line}:${start.character}`;
}
