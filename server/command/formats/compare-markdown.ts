/** A comparison as Markdown for a comment in a review: a table of what is heard, lists of the rest, long lists folded away. */
import { escapeMarkdown } from '../../../language/escape.js';
import type { Change } from '../../../language/compare/index.js';
import type { Sides } from '../compare-sides.js';
import { positionTable, sectionBlocks } from './change-blocks.js';

export function compareMarkdown(change: Change, { publicName }: Sides): string {
  const title = change.title.after || change.title.before;
  const table = positionTable(change.positions, ['sounds', 'hum', 'reads', 'peak', 'level']);
  const blocks = [
    `### ${title === '' ? 'Wiring' : escapeMarkdown(title)}: ${change.summary}`,
    escapeMarkdown(publicName),
    ...(table === undefined ? [] : ['#### Positions', table]),
    ...sectionBlocks(change),
  ];
  return `${blocks.join('\n\n')}\n`;
}
