/** The columns of the one layout: the colons of neighbouring parts, the `to` of neighbouring wires, and so on. */
import { linesOf } from '../lines.js';
import type { Line } from './format-lines.js';
import { isComment, isSign, type Token } from '../tokens.js';

/** Writes lines of tokens as text, neighbours of one kind in columns. */
export function writeLines(lines: readonly Line[]): string[] {
  const columns = new Map([...alignedColumns(lines), ...leadColumns(lines)]);
  return lines.flatMap((line, i) => {
    const text = line.verbatim ?? writeLine(line, columns.get(i));
    return line.blankBefore ? ['', ...text] : text;
  });
}

interface Column {
  /** The token that stands in the column. */
  readonly token: number;
  readonly width: number;
}

/** Kinds of statements that stand in columns, each among its own; solder joints stand with wires. */
const kinds = ['part', 'wire', 'expect', 'measured', 'at', 'cavity', 'channel'] as const;
type Kind = (typeof kinds)[number];

interface Cell {
  readonly line: number;
  readonly token: number;
  readonly width: number;
}

/** The leads of one part that stand below each other: what is said of each begins in one column. */
function leadColumns(lines: readonly Line[]): Map<number, Column> {
  const columns = new Map<number, Column>();
  let run: Cell[] = [];
  const close = (): void => {
    const width = Math.max(0, ...run.map((cell) => cell.width));
    for (const cell of run) columns.set(cell.line, { token: cell.token, width });
    run = [];
  };
  lines.forEach((line, i) => {
    const isLead = line.goesOn === true && line.tokens.filter(({ image }) => image === 'lead').length === 1;
    const said = line.tokens[2];
    if (!isLead || line.blankBefore) close();
    if (!isLead || line.tokens[0]?.image !== 'lead' || said === undefined || isSign(said, ',') || isSign(said, '}')) return;
    run.push({ line: i, token: 2, width: widthOf(writeTokens(line.tokens.slice(0, 2))) });
  });
  close();
  return columns;
}

/** For each line with a column, which token stands there and how wide the text before it becomes. */
function alignedColumns(lines: readonly Line[]): Map<number, Column> {
  const columns = new Map<number, Column>();
  let run: Cell[] = [];
  let kind: Kind | undefined;
  let lastWord = '';
  const close = () => {
    const width = Math.max(0, ...run.map((cell) => cell.width));
    for (const cell of run) columns.set(cell.line, { token: cell.token, width });
    run = [];
    kind = undefined;
  };
  lines.forEach((line, i) => {
    if (line.goesOn && !line.blankBefore) return;
    const word = line.opens?.head.word;
    const own = line.opens?.body === undefined ? kindOf(word) : undefined;
    // A solder line ends a run of wires: what follows is another group of joints.
    const broken = line.blankBefore || own !== kind || (word === 'wire' && lastWord === 'solder');
    if (broken) close();
    kind = own;
    lastWord = word ?? '';
    if (own === undefined) return;
    const token = columnToken(line.tokens, own);
    if (token !== undefined) run.push({ line: i, token, width: widthOf(writeTokens(line.tokens.slice(0, token))) });
  });
  close();
  return columns;
}

function kindOf(word: string | undefined): Kind | undefined {
  return word === 'solder' ? 'wire' : kinds.find((kind) => kind === word);
}

/** Index of the token that is put in a column. */
function columnToken(tokens: readonly Token[], kind: Kind): number | undefined {
  const start = tokens.findIndex((token) => !isComment(token));
  if (kind === 'wire' || kind === 'channel') return onlyTo(tokens, start + 1);
  if (kind === 'cavity') {
    const third = tokens[start + 2];
    return third !== undefined && !isComment(third) ? start + 2 : undefined;
  }
  const found =
    kind === 'at'
      ? tokens.findIndex((token, i) => i > start + 1 && token.kind === 'word' && token.image === 'joins')
      : tokens.findIndex((token) => isSign(token, ':'));
  return found < 0 ? undefined : found;
}

/** The `to` of a wire with a single run; one of several runs stands as it is. */
function onlyTo(tokens: readonly Token[], start: number): number | undefined {
  const first = lugEnd(tokens, start);
  if (tokens[first]?.image !== 'to') return undefined;
  const second = lugEnd(tokens, first + 1);
  return tokens[second]?.image === 'to' ? undefined : first;
}

function lugEnd(tokens: readonly Token[], start: number): number {
  let i = start + 1;
  while (isSign(tokens[i], '.')) i += 2;
  return i;
}

function writeLine(line: Line, column: Column | undefined): string[] {
  const margin = ' '.repeat(line.indent);
  const before = column ? writeTokens(line.tokens.slice(0, column.token)) : '';
  const padding = column ? ' '.repeat(column.width - widthOf(before) + 1) : '';
  const text = before + padding + writeTokens(line.tokens.slice(column?.token ?? 0), line.indent);
  return (margin + text).split('\n');
}

function widthOf(text: string): number {
  return [...text.replace(/\p{M}/gu, '')].length;
}

function writeTokens(tokens: readonly Token[], indent = 0): string {
  let text = '';
  let previous: Token | undefined;
  for (const token of tokens) {
    if (previous) text += gap(previous, token);
    text += isComment(token) ? comment(token.image, indent) : token.image;
    previous = token;
  }
  return text;
}

/** The lines of a comment: no space at their ends, and those that begin with a star under the first one's star. */
function comment(image: string, indent: number): string {
  const [first = '', ...rest] = linesOf(image).map((line) => line.trimEnd());
  const starred = rest.every((line) => /^\s*\*/.test(line));
  return [first, ...rest.map((line) => (starred ? ' '.repeat(indent + 1) + line.trimStart() : line))].join('\n');
}

function gap(previous: Token, next: Token): string {
  if (isComment(previous) || isComment(next)) return ' ';
  if (isSign(next, ',') || isSign(next, ')') || isSign(next, '.') || isSign(next, '(') || isSign(next, '|')) return '';
  return isSign(previous, '(') || isSign(previous, '.') || isSign(previous, '|') ? '' : ' ';
}
