/** Trees and problems said in short lines, so that a test is a text and what it must say. */
import { createTextParser, type Tree } from '../../language/grammar/index.js';

/** One line a statement, then one line a problem (`! line:from-to message`), lines counted from 1 as an editor shows them. */
export function say(text: string): string {
  const tree = createTextParser().parse('memory:/text.lug', text);
  return [...tree.statements.map((statement) => sayNode(statement)), ...sayProblems(tree)].join('\n');
}

/** The problems alone. */
export function sayProblems(tree: Tree): string[] {
  return tree.problems.map(({ message, range: { start, end } }) => {
    const to = end.line === start.line ? `${end.character}` : `${end.line + 1}:${end.character}`;
    return `! ${start.line + 1}:${start.character}-${to} ${message}`;
  });
}

/** A node without its places: fields in their order, words as written (strings in quotes, values after `=`, what is unknown as `?`). */
function sayNode(node: unknown): string {
  if (Array.isArray(node)) return `[${node.map((item) => sayNode(item)).join(' ')}]`;
  if (typeof node !== 'object' || node === null) return node === undefined || node === null ? '-' : String(node);
  const fields = Object.entries(node).filter(([key]) => !['range', 'line', 'head'].includes(key));
  const record = Object.fromEntries(fields) as Record<string, unknown>;
  if (typeof record['kind'] === 'string' && typeof record['text'] === 'string') return sayWord(record['kind'], record['text']);
  if (Array.isArray(record['path']) && fields.length === 1)
    return record['path'].map((word) => sayNode(word).replace(/^=/, '')).join('.');
  const { kind, body: inner, ...rest } = record;
  const said = Object.entries(rest).filter(([, value]) => value !== false && !(Array.isArray(value) && value.length === 0));
  const lines = Array.isArray(inner) ? inner.map((statement) => `\n  ${sayNode(statement)}`).join('') : '';
  const body = said.map(([key, value]) => (value === true ? key : `${key}:${sayNode(value)}`)).join(' ');
  return typeof kind === 'string' ? `${kind}${body ? ` ${body}` : ''}${lines}` : `(${body})`;
}

function sayWord(kind: string, text: string): string {
  if (kind === 'string') return JSON.stringify(text);
  if (kind === 'unknown') return text === '' ? '<missing>' : text;
  return kind === 'value' ? `=${text}` : text;
}
