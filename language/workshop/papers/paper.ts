/** What the workshop's papers are drawn on: the part of a page that A4 and Letter both have, in millimetres, at true size. */
import { escapeXml } from '../../escape.js';

/** Millimetres inside the margins of 12 mm: A4 has 186 × 273, Letter 191 × 255. */
export const PAGE = { width: 184, height: 248 } as const;

/** 6 pt in millimetres: no text is smaller. */
export const SMALLEST = 2.12;

/** One page as an SVG whose unit is a millimetre. */
export function pageSvg(content: readonly string[]): string {
  return `<svg class="paper" xmlns="http://www.w3.org/2000/svg" width="${PAGE.width}mm" height="${PAGE.height}mm" viewBox="0 0 ${PAGE.width} ${PAGE.height}" font-family="system-ui, Liberation Sans, Arial, sans-serif">\n${content.join('\n')}\n</svg>`;
}

export interface TextLook {
  /** Height of the letters, millimetres; 3 where nothing is said. */
  readonly size?: number;
  readonly bold?: boolean;
  readonly anchor?: 'start' | 'middle' | 'end';
}

export function text(x: number, y: number, words: string, { size = 3, bold = false, anchor = 'start' }: TextLook = {}): string {
  return `<text x="${mm(x)}" y="${mm(y)}" font-size="${mm(size)}"${bold ? ' font-weight="700"' : ''}${anchor === 'start' ? '' : ` text-anchor="${anchor}"`}>${escapeXml(words.replace(/\s+/g, ' '))}</text>`;
}

/** A point in millimetres from the upper left corner of the page. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export function line(from: Point, to: Point, width = 0.2, dash = ''): string {
  return `<line x1="${mm(from.x)}" y1="${mm(from.y)}" x2="${mm(to.x)}" y2="${mm(to.y)}" stroke="#000" stroke-width="${width}"${dash === '' ? '' : ` stroke-dasharray="${dash}"`}/>`;
}

export function rect(x: number, y: number, width: number, height: number): string {
  return `<rect x="${mm(x)}" y="${mm(y)}" width="${mm(width)}" height="${mm(height)}" fill="none" stroke="#000" stroke-width="0.2"/>`;
}

/** The text in lines no wider than that (a letter is taken as 0.6 of its size wide, more than a sans-serif has on average), broken at spaces and behind points and hyphens, and inside a word that is too long; the last line ends in `…` where more than `most` would be needed. */
export function linesOf(words: string, size: number, width: number, most: number): readonly string[] {
  const room = Math.max(1, Math.floor(width / (size * 0.6)));
  const lines: string[] = [];
  let current = '';
  const pieces = words.split(/(?<=[ .-])/u).flatMap((piece) => cut([...piece], room));
  for (const piece of pieces) {
    if (current !== '' && [...current, ...piece.trimEnd()].length > room) {
      lines.push(current.trimEnd());
      current = '';
    }
    current += piece;
  }
  if (current.trim() !== '') lines.push(current.trimEnd());
  if (lines.length <= most) return lines;
  const kept = lines.slice(0, most);
  return [...kept.slice(0, -1), `${[...(kept.at(-1) ?? '')].slice(0, room - 1).join('')}…`];
}

function cut(letters: readonly string[], room: number): string[] {
  const pieces: string[] = [];
  for (let from = 0; from < letters.length; from += room) pieces.push(letters.slice(from, from + room).join(''));
  return pieces;
}

/** A figure as SVG has it: micrometres are enough. */
export function mm(value: number): string {
  return String(Number(value.toFixed(3)));
}
