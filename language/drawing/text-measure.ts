/** How wide a text is: the one place that knows, so that every label has its box without a screen to measure on. */
import { itemAt } from '../collections.js';

/**
 * Advance widths in thousandths of the size, of the characters from the space to the tilde. They are those of the common
 * metric-compatible sans serif faces (from memory); the SVG states each label's length, so that another face is fitted to the box.
 */
const widths = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556, 556, 556,
  556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778,
  722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222,
  500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];

/** Room for faces that run a little wider than the table. */
const ease = 1.05;
const boldFactor = 1.07;
/** Share of the size above and below the base line. */
const ascent = 0.76;
const descent = 0.23;

/** The faces a drawing asks for, nearest to the table first. */
export const fontFamily = "'Liberation Sans', Arimo, Helvetica, Arial, 'Noto Sans', 'DejaVu Sans', sans-serif";

export interface TextStyle {
  readonly size: number;
  readonly bold?: boolean;
}

/** Width of one line of text. */
export function textWidth(text: string, style: TextStyle): number {
  return sizeOf(thousandthsOf(text), style);
}

/** Height of one line from the top of its tallest letters to the bottom of its tails; lines of capitals and digits have no tails. */
export function textHeight(text: string, style: TextStyle): number {
  return round(style.size * (ascent + (hasTails(text) ? descent : 0.02)));
}

/** How far the base line lies below the top of the box that `textHeight` gives. */
export function baseLine(style: TextStyle): number {
  return round(style.size * ascent);
}

/** The text cut to a width, with an ellipsis where something was cut. */
export function fitText(text: string, style: TextStyle, width: number): string {
  if (textWidth(text, style) <= width) return text;
  // Added up from the left, so that the time does not grow with the square of a name's length.
  let [kept, units] = ['', thousandthsOf('…')];
  for (const character of text) {
    units += thousandthsOf(character);
    if (kept !== '' && sizeOf(units, style) > width) break;
    kept += character;
  }
  return `${kept}…`;
}

/** The text in lines that keep to a width; a wider word gets its own line. */
export function wrapText(text: string, style: TextStyle, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`, style) <= width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

function thousandthsOf(text: string): number {
  let sum = 0;
  for (const character of text) sum += widthOf(character.codePointAt(0) ?? 0);
  return sum;
}

function sizeOf(thousandths: number, style: TextStyle): number {
  return round((thousandths / 1000) * style.size * ease * (style.bold ? boldFactor : 1));
}

function hasTails(text: string): boolean {
  return !/^[A-Z0-9+−.°\s]*$/u.test(text);
}

function widthOf(point: number): number {
  if (point >= 32 && point < 127) return itemAt(widths, point - 32);
  if (isZeroWidth(point)) return 0;
  if (point < 0x1100) return 640;
  return 1000;
}

function isZeroWidth(point: number): boolean {
  return (point >= 0x300 && point < 0x370) || (point >= 0x200b && point <= 0x200f) || (point >= 0xfe00 && point <= 0xfe0f);
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
