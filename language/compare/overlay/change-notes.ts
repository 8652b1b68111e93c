/** What stands below the picture of a change: its summary, what sounds otherwise, the key to the marks and a sentence for each. */
import { baseLine, type Scene, type TextStyle, textWidth, wrapText } from '../../drawing/index.js';
import { escapeXml } from '../../escape.js';
import { capitalised } from '../../words.js';
import type { Kind } from '../change.js';
import type { Overlay } from './overlay.js';
import { letters, type PlacedMark } from './place-marks.js';
import type { SoundTable } from './sound-rows.js';

export interface ChangeNotes {
  readonly markup: string;
  /** Drawing units below the drawing. */
  readonly height: number;
}

const line = 17;
const margin = 24;
const style: TextStyle = { size: 11 };
const bold: TextStyle = { ...style, bold: true };
/** Of the key: length of a sample, and from one entry to the next. */
const [sample, gap] = [40, 24];

export function changeNotes(scene: Scene, overlay: Overlay, marks: readonly PlacedMark[]): ChangeNotes {
  const page = createPage(scene);
  for (const text of wrapText(sentence(overlay.says), bold, page.width)) page.line(page.text(text, 0, bold));
  for (const says of overlay.first) for (const text of wrapText(sentence(says), style, page.width)) page.line(page.text(text, 0));
  if (overlay.sounds.rows.length > 0) writeSounds(page, overlay.sounds);
  if (marks.length > 0) {
    page.skip();
    writeKey(page, marks);
    for (const mark of marks) writeSentence(page, mark);
  }
  return { markup: `<g class="changes">${page.markup()}</g>`, height: page.height() + 12 };
}

/** Lines from the foot of the drawing downwards. */
interface Page {
  readonly width: number;
  /** A text on the present line; `x` counts from the margin. */
  text(text: string, x: number, style?: TextStyle): string;
  /** Ends the line with what is on it. */
  line(markup: string): void;
  skip(): void;
  /** Middle of the letters of the present line. */
  middle(): number;
  markup(): string;
  height(): number;
}

function createPage(scene: Scene): Page {
  const pieces: string[] = [];
  const start = scene.height + 4;
  let y = start;
  return {
    width: scene.width - 2 * margin,
    // The length is stated, so that a face with other widths keeps to the columns.
    text: (text, x, textStyle = style) =>
      text === ''
        ? ''
        : `<text class="key${textStyle.bold === true ? ' bold' : ''}" font-size="${textStyle.size}" x="${round(margin + x)}" y="${round(y + baseLine(textStyle))}" textLength="${textWidth(text, textStyle)}" lengthAdjust="spacingAndGlyphs">${escapeXml(text)}</text>`,
    line(markup) {
      pieces.push(markup);
      y += line;
    },
    skip() {
      y += line / 2;
    },
    middle: () => round(y + baseLine(style) - 4),
    markup: () => pieces.join(''),
    height: () => Math.ceil(y - scene.height),
  };
}

/** Columns as wide as their texts where there is room for all; else the longer texts take several lines. */
function writeSounds(page: Page, { rows, omitted }: SoundTable): void {
  const head = ['position', 'sounded before', 'sounds now'];
  const cells = rows.map(({ position, before, after }) => [[position], before, after]);
  const widths = columnWidths([head, ...cells.map((row) => row.map((pieces) => pieces.join(', ')))], page.width);
  const startOf = (column: number): number => widths.slice(0, column).reduce((x, width) => x + width + gap, 0);
  page.skip();
  const titles = head.map((text, column) => page.text(text, startOf(column), bold)).join('');
  page.line(`${titles}<path class="rule" d="M${margin} ${page.middle() + 8}h${round(startOf(3) - gap)}"/>`);
  for (const row of cells) {
    const lines = row.map((pieces, column) => wrapPieces(pieces, widths[column] ?? 0));
    for (let index = 0; index < Math.max(...lines.map(({ length }) => length)); index++)
      page.line(lines.map((cell, column) => page.text(cell[index] ?? '', startOf(column))).join(''));
  }
  if (omitted > 0) page.line(page.text(`and ${omitted} more ${omitted === 1 ? 'position' : 'positions'}`, 0));
}

/** Lines that break between pieces, and within one only where it is too long by itself. */
function wrapPieces(pieces: readonly string[], width: number): readonly string[] {
  const lines: string[] = [];
  for (const [index, piece] of pieces.entries()) {
    const text = index < pieces.length - 1 ? `${piece},` : piece;
    const joined = `${lines.at(-1) ?? ''} ${text}`;
    if (index > 0 && textWidth(joined, style) <= width) lines[lines.length - 1] = joined;
    else lines.push(...wrapText(text, style, width));
  }
  return lines;
}

function columnWidths(rows: readonly (readonly string[])[], room: number): readonly number[] {
  const columns = [0, 1, 2];
  const wanted = columns.map((column) => Math.max(...rows.map((row) => textWidth(row[column] ?? '', bold))));
  const free = room - gap * (columns.length - 1);
  const sum = wanted.reduce((total, width) => total + width, 0);
  if (sum <= free) return wanted;
  // What needs less than a third keeps it; the others share the rest.
  const small = wanted.filter((width) => width <= free / 3);
  const rest = (free - small.reduce((total, width) => total + width, 0)) / (columns.length - small.length);
  return wanted.map((width) => (width <= free / 3 ? width : rest));
}

/** Each line style that occurs, with what it means. */
function writeKey(page: Page, marks: readonly PlacedMark[]): void {
  let x = 0;
  let markup = '';
  for (const { kind, words, draw } of keyEntries(marks)) {
    const text = `${letters[kind]} ${words}`;
    const width = sample + 8 + textWidth(text, style);
    if (x > 0 && x + width > page.width) {
      page.line(markup);
      [x, markup] = [0, ''];
    }
    markup += `<g class="change ${kind}">${draw(round(margin + x), page.middle())}${page.text(text, x + sample + 8)}</g>`;
    x += width + gap;
  }
  if (markup !== '') page.line(markup);
}

interface KeyEntry {
  readonly kind: Kind;
  readonly words: string;
  /** The sample from its left end. */
  draw(this: void, x: number, y: number): string;
}

function keyEntries(marks: readonly PlacedMark[]): readonly KeyEntry[] {
  const stroke =
    (look: 'line' | 'line outline' | 'was'): KeyEntry['draw'] =>
    (x, y) =>
      `<path class="${look}" d="M${x} ${y}h${sample}"/>`;
  return (['new', 'changed', 'moved', 'gone'] as const).flatMap((kind) => {
    const own = marks.filter(({ mark }) => mark.kind === kind);
    const hasWires = own.some(({ wires }) => wires.length > 0);
    const hasParts = own.some(({ boxes }) => boxes.length > 0);
    const words = kind === 'moved' ? 'moved, now' : kind;
    return [
      ...(hasWires || hasParts ? [{ kind, words, draw: stroke(hasWires ? 'line' : 'line outline') }] : []),
      ...(own.some(({ was }) => was !== undefined) ? [{ kind, words: `${kind}, where it was`, draw: stroke('was') }] : []),
    ];
  });
}

function writeSentence(page: Page, { mark, text, wires, boxes, was }: PlacedMark): void {
  const indent = 30;
  const isDrawn = wires.length + boxes.length > 0 || was !== undefined;
  const says = isDrawn ? mark.says : `${mark.says} (not on this drawing)`;
  wrapText(says, style, page.width - indent).forEach((words, index) =>
    page.line(`${index === 0 ? page.text(text, 0, bold) : ''}${page.text(words, indent)}`),
  );
}

/** With a capital and a stop; a question keeps its mark. */
function sentence(text: string): string {
  return `${capitalised(text)}${text.endsWith('?') ? '' : '.'}`;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
