/** The difference between a text and its formatted form as small edits, so that cursors and marks elsewhere stay where they are. */
import { itemAt } from '../../../language/collections.js';
import type { TextEdit } from 'vscode-languageserver';
import { lineEndOf, linesOf } from '../../../language/grammar/index.js';

/** Old lines `from` to `to` (exclusive) that other lines take the place of. */
export interface LineEdit {
  readonly from: number;
  readonly to: number;
  readonly lines: readonly string[];
}

/** Edits that make `after` of `before`; formatting moves words and blank lines, so lines are paired by their words. */
export function lineEdits(before: string, after: string): LineEdit[] {
  const [old, now] = [linesOf(before), linesOf(after)] as const;
  const edits: LineEdit[] = [];
  let i = 0;
  let j = 0;
  while (i < old.length || j < now.length) {
    const [di, dj] = nextPair(old, now, i, j);
    if (di > 0 || dj > 0) edits.push({ from: i, to: i + di, lines: now.slice(j, j + dj) });
    i += di;
    j += dj;
    const [was, is] = [old[i], now[j]];
    if (was !== undefined && is !== undefined && was !== is) edits.push({ from: i, to: i + 1, lines: [is] });
    i++;
    j++;
  }
  return edits;
}

/** As edits of the protocol; the text's own line ends are kept. */
export function toTextEdits(before: string, edits: readonly LineEdit[]): TextEdit[] {
  const eol = lineEndOf(before);
  const old = linesOf(before);
  return edits.map(({ from, to, lines }) => {
    const text = lines.join(eol);
    const endOf = (line: number) => ({ line, character: itemAt(old, line).length });
    // Lines for lines leave the line end alone.
    if (to > from && lines.length > 0)
      return { range: { start: { line: from, character: 0 }, end: endOf(to - 1) }, newText: text };
    if (to < old.length)
      return {
        range: { start: { line: from, character: 0 }, end: { line: to, character: 0 } },
        newText: lines.length === 0 ? '' : text + eol,
      };
    // At the end of the text there is no line to begin at: what changes there begins behind the line above.
    const start = from > 0 ? endOf(from - 1) : { line: 0, character: 0 };
    return { range: { start, end: endOf(old.length - 1) }, newText: from > 0 && lines.length > 0 ? eol + text : text };
  });
}

/** How many lines of each side to pass over until two have the same words. */
function nextPair(old: readonly string[], now: readonly string[], i: number, j: number): [number, number] {
  const isPair = (a: number, b: number): boolean => {
    const [was, is] = [old[a], now[b]];
    return was !== undefined && is !== undefined && words(was) === words(is);
  };
  for (let sum = 0; i + j + sum < old.length + now.length; sum++) {
    for (let di = 0; di <= sum; di++) if (isPair(i + di, j + sum - di)) return [di, sum - di];
  }
  return [old.length - i, now.length - j];
}

function words(line: string): string {
  return line.replace(/\s+/g, '');
}
