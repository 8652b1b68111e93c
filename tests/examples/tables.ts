/** Tables worked by hand: their rows, and the arithmetic of their workings. */
import { readFileSync } from 'node:fs';

/** One row: what a setting sounds and reads like, and how the reading was worked out. */
export interface Row {
  /** The contact at which it is heard and read, such as `jack.ring`; the usual output where nothing is said. */
  readonly output?: string;
  readonly setting: string;
  /** An arrangement, `silent`, or `-` where the row is about the reading alone. */
  readonly sounds: string;
  readonly hum: string;
  /** `6.2k∥250k`, `open`, or `?` where a value in it is not known. */
  readonly working: string;
  readonly ohm: string;
  readonly low?: string;
  readonly high?: string;
}

/** A circuit in a fence and the rows below it; the text is empty where the table belongs to an example. */
export interface Sheet {
  readonly heading: string;
  readonly text: string;
  readonly rows: readonly Row[];
}

/** Every table of a Markdown file, each with the nearest heading and fence above it. */
export function readSheets(url: URL): readonly Sheet[] {
  const sheets: Sheet[] = [];
  let heading = '';
  let fence: string[] | undefined;
  let text = '';
  let columns: string[] = [];
  let rows: Row[] = [];
  for (const line of [...readFileSync(url, 'utf8').split('\n'), '']) {
    if (fence !== undefined) {
      if (!line.startsWith('```')) fence.push(line);
      else [text, fence] = [fence.join('\n'), undefined];
    } else if (line.startsWith('```')) fence = [];
    else if (line.startsWith('#')) heading = line.replace(/^#+ /, '');
    else if (line.startsWith('|')) {
      const cells = line
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim());
      if (columns.length === 0) columns = cells;
      else if (!/^[-:]+$/.test(cells[0]!))
        rows.push(Object.fromEntries(columns.map((column, index) => [column, cells[index]])) as unknown as Row);
    } else if (rows.length > 0) {
      sheets.push({ heading, text, rows });
      [columns, rows] = [[], []];
    }
  }
  return sheets;
}

/**
 * Ohms of a working: values with R, k or M, joined by `+`, `-`, `/` and `∥` (a∥b = ab/(a + b)), with brackets; `∥` and `/` bind tighter.
 * Throws on anything else: a table is data of ours.
 */
export function evaluate(working: string): number {
  const tokens = working.match(/[\d.]+[RkM]?|[()+\-/∥]/gu) ?? [];
  if (tokens.join('') !== working.replace(/ /g, '')) throw new Error(`cannot read ${working}`);
  let at = 0;
  const sum = (): number => {
    let value = product();
    while (tokens[at] === '+' || tokens[at] === '-') value += (tokens[at++] === '+' ? 1 : -1) * product();
    return value;
  };
  const product = (): number => {
    let value = single();
    while (tokens[at] === '∥' || tokens[at] === '/') value = tokens[at++] === '/' ? value / single() : beside(value, single());
    return value;
  };
  const single = (): number => {
    const token = tokens[at++] ?? '';
    if (token !== '(') return Number.parseFloat(token) * ({ k: 1e3, M: 1e6 }[token.at(-1)!] ?? 1);
    const value = sum();
    at++;
    return value;
  };
  return sum();
}

function beside(a: number, b: number): number {
  return a === 0 || b === 0 ? 0 : (a * b) / (a + b);
}
