/** How text stands on a terminal: colours, and the columns that characters take. */
import { visible } from '../../../language/escape.js';

export type Ink = 'error' | 'warning' | 'info' | 'hint' | 'faint' | 'strong' | 'added' | 'removed';

const codes: Record<Ink, string> = {
  error: '31;1',
  warning: '33;1',
  info: '36',
  hint: '35',
  faint: '2',
  strong: '1',
  added: '32',
  removed: '31',
};

/**
 * Whether an output gets colours where no option says: a terminal that is not `dumb`, unless the user wants none (`NO_COLOR`, see no-color.org);
 * any output where the user wants them (`FORCE_COLOR`, see force-color.org), which counts before `NO_COLOR`, as with Node.js itself.
 */
export function showsColours(env: Readonly<Record<string, string | undefined>>, isTerminal: boolean): boolean {
  const forced = env['FORCE_COLOR'];
  if (forced !== undefined && forced !== '') return forced !== '0' && forced !== 'false';
  return isTerminal && !env['NO_COLOR'] && env['TERM'] !== 'dumb';
}

/** A function that inks text, or leaves it as it is where colours are not wanted. */
export function createInk(colour: boolean): (ink: Ink, text: string) => string {
  return colour ? (ink, text) => `\u001b[${codes[ink]}m${text}\u001b[0m` : (_, text) => text;
}

/** Columns a text takes: wide East Asian characters two, combining marks none. */
export function columnsOf(text: string): number {
  let columns = 0;
  for (const character of text) columns += /\p{Mark}/u.test(character) ? 0 : isWide(character.codePointAt(0) ?? 0) ? 2 : 1;
  return columns;
}

/** Pads with spaces to a number of columns. */
export function padTo(text: string, columns: number, side: 'left' | 'right' = 'right'): string {
  const space = ' '.repeat(Math.max(0, columns - columnsOf(text)));
  return side === 'right' ? text + space : space + text;
}

/** Breaks a text at spaces into lines of at most `width` columns, where its words allow. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const line = lines.at(-1);
    if (line !== undefined && columnsOf(line) + 1 + columnsOf(word) <= width) lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** A line of a file: characters that would move the cursor, change its colour or turn the direction of writing are shown as `·`; tabs stay. */
export function printable(text: string): string {
  return visible(text, '·');
}

/** East Asian Wide and Fullwidth blocks (Unicode Standard Annex 11), by block. */
function isWide(code: number): boolean {
  return (
    (code >= 0x1100 && code <= 0x115f) ||
    (code >= 0x2e80 && code <= 0xa4cf) ||
    (code >= 0xac00 && code <= 0xd7a3) ||
    (code >= 0xf900 && code <= 0xfaff) ||
    (code >= 0xfe30 && code <= 0xfe6f) ||
    (code >= 0xff00 && code <= 0xff60) ||
    (code >= 0xffe0 && code <= 0xffe6) ||
    (code >= 0x1f300 && code <= 0x1faff) ||
    (code >= 0x20000 && code <= 0x3fffd)
  );
}
