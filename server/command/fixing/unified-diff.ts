/** Two texts as a unified diff, as `git apply` and `patch -p1` read it. */
import { commonLines } from '../../../language/common-lines.js';
import { visible } from '../../../language/escape.js';
import { createInk } from '../output/terminal.js';

/** Lines of context around a change. */
const context = 3;

export interface DiffOptions {
  /** True where it is shown on a terminal: characters that a terminal would obey are then shown as a mark, and it can't be applied. */
  readonly isShown: boolean;
  readonly colour: boolean;
}

/** Nothing where the texts are the same. `path` names the file from the working folder. */
export function unifiedDiff(path: string, before: string, after: string, { isShown, colour }: DiffOptions): string {
  const rows = rowsOf(piecesOf(before), piecesOf(after));
  const hunks = hunksOf(rows);
  if (hunks.length === 0) return '';
  const paint = createInk(colour);
  const shown = (line: string): string => (isShown ? visible(line.replace(/\r$/, ''), '·') : line);
  const lines = [paint('strong', `--- ${nameOf(path, 'a')}`), paint('strong', `+++ ${nameOf(path, 'b')}`)];
  for (const hunk of hunks) {
    lines.push(paint('info', headOf(rows, hunk)));
    for (const { sign, text } of rows.slice(hunk.from, hunk.to)) {
      const line = `${sign}${shown(text.replace(/\n$/, ''))}`;
      lines.push(sign === ' ' ? line : paint(sign === '-' ? 'removed' : 'added', line));
      if (!text.endsWith('\n')) lines.push('\\ No newline at end of file');
    }
  }
  return `${lines.join('\n')}\n`;
}

interface Row {
  readonly sign: ' ' | '-' | '+';
  /** With its line feed; the last line of a text may have none. */
  readonly text: string;
}

/** Rows `from` to `to`, without it. */
interface Stretch {
  readonly from: number;
  readonly to: number;
}

function piecesOf(text: string): readonly string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

function rowsOf(before: readonly string[], after: readonly string[]): readonly Row[] {
  const rows: Row[] = [];
  let [i, j] = [0, 0];
  const passTo = (a: number, b: number): void => {
    rows.push(...before.slice(i, a).map((text): Row => ({ sign: '-', text })));
    rows.push(...after.slice(j, b).map((text): Row => ({ sign: '+', text })));
  };
  for (const [a, b] of commonLines(before, after)) {
    passTo(a, b);
    rows.push({ sign: ' ', text: before[a] ?? '' });
    [i, j] = [a + 1, b + 1];
  }
  passTo(before.length, after.length);
  return rows;
}

/** Changes with their context; those whose contexts meet are one. */
function hunksOf(rows: readonly Row[]): readonly Stretch[] {
  const hunks: Stretch[] = [];
  rows.forEach(({ sign }, at) => {
    if (sign === ' ') return;
    const last = hunks.at(-1);
    const [from, to] = [Math.max(0, at - context), Math.min(rows.length, at + context + 1)];
    if (last !== undefined && from <= last.to) hunks[hunks.length - 1] = { from: last.from, to };
    else hunks.push({ from, to });
  });
  return hunks;
}

/** `@@ -12,7 +12,8 @@`; an empty side is counted from the line before it. */
function headOf(rows: readonly Row[], { from, to }: Stretch): string {
  const side = (gone: Row['sign']): string => {
    const count = (some: readonly Row[]): number => some.filter(({ sign }) => sign !== gone).length;
    const [above, size] = [count(rows.slice(0, from)), count(rows.slice(from, to))];
    return `${size === 0 ? above : above + 1}${size === 1 ? '' : `,${size}`}`;
  };
  return `@@ -${side('+')} +${side('-')} @@`;
}

/** The name as git writes it: quoted, with its bytes in octal, where it holds signs that would disturb. A tab ends a name with spaces. */
function nameOf(path: string, side: 'a' | 'b'): string {
  const name = /^([/\\]|[a-z]:)/i.test(path) ? path : `${side}/${path.replace(/^\.\//, '')}`;
  if (visible(name) === name && !/["\\\t\n]/.test(name)) return name.includes(' ') ? `${name}\t` : name;
  const signs = [...name].map((sign) => {
    if (sign === '"' || sign === '\\') return `\\${sign}`;
    if (visible(sign) === sign && !/[\t\n]/.test(sign)) return sign;
    return [...Buffer.from(sign)].map((byte) => `\\${byte.toString(8).padStart(3, '0')}`).join('');
  });
  return `"${signs.join('')}"`;
}
