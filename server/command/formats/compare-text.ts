/** A comparison for the terminal: a heading with the summary, then a section for each kind of change. */
import { oneLine } from '../../../language/escape.js';
import { changeSections, type Change } from '../../../language/compare/index.js';
import type { Sides } from '../compare-sides.js';
import { createInk, type Ink } from '../output/terminal.js';

export function compareText(change: Change, { name }: Sides, colour: boolean): string {
  const paint = createInk(colour);
  const lines = changeSections(change).flatMap(({ title, lines: own }) => [
    '',
    paint('strong', title),
    ...own.map(({ mark, says }) => `  ${mark === '' ? '' : `${mark} `}${painted(says)}`),
  ]);
  return `${[`${paint('strong', oneLine(name))}: ${change.summary}`, ...lines].join('\n')}\n`;

  function painted(says: string): string {
    const ink = inks.find(([start]) => says.startsWith(start));
    const text = oneLine(says);
    return ink === undefined ? text : paint(ink[1], ink[0]) + text.slice(ink[0].length);
  }
}

const inks: readonly (readonly [string, Ink])[] = [
  ['broken', 'error'],
  ['error', 'error'],
  ['warning', 'warning'],
  ['now met', 'info'],
];
