/** What changed between two releases of a workshop's circuits, for those who own or rework an instrument that is built already. */
import { publicPath } from '../compare-sides.js';
import { cautions } from '../../../language/cautions.js';
import { escapeMarkdown } from '../../../language/escape.js';
import { positionTable } from '../formats/change-blocks.js';
import type { CircuitChange, FolderChange } from './folder-change.js';
import { fileLine, groupsOf } from './summary.js';

export function releaseNote(page: FolderChange): string {
  const groups = groupsOf(page).filter(([circuit]) => isWorthANote(circuit));
  const blocks = groups.flatMap((group) => {
    const [{ change, path }, ...others] = group;
    const names = [path, ...others.map((other) => other.path)].map((name, index) => {
      const { title } = (group[index] ?? group[0]).change;
      return title.after || title.before || name;
    });
    const heard = positionTable(change.positions, ['sounds', 'hum', 'peak', 'level']);
    const read = positionTable(change.positions, ['reads']);
    const more = [
      ...change.lost.map((name) => `${name} is not heard in any position any more`),
      ...change.controls.map(({ says }) => says),
    ];
    return [
      `## ${[...new Set(names)].map(escapeMarkdown).join(', ')}`,
      ...(heard === undefined && more.length === 0 ? ['It sounds as before.'] : ['### What the player hears']),
      ...(heard === undefined ? [] : [heard]),
      ...(more.length === 0 ? [] : [more.map((text) => `- ${escapeMarkdown(text)}`).join('\n')]),
      ...(change.rework.length === 0
        ? ['Nothing is to be done on an instrument that is built already.']
        : [
            '### On an instrument that is built already',
            change.rework.map((text, index) => `${index + 1}. ${escapeMarkdown(text)}`).join('\n'),
          ]),
      ...(read === undefined ? [] : ['### Afterwards the meter reads', read]),
    ];
  });
  const files = page.files.filter(({ title }) => title !== '').map((file) => `- ${escapeMarkdown(fileLine(file))}`);
  const battery = groups.some(([{ hasBattery }]) => hasBattery);
  return `${[
    `# Wiring changes, ${escapeMarkdown(publicPath(page.before))} → ${escapeMarkdown(publicPath(page.after))}`,
    ...(blocks.length + files.length === 0 ? ['No circuit changes in what is heard, read or soldered.'] : []),
    ...(files.length === 0 ? [] : ['## Instruments', files.join('\n')]),
    ...blocks,
    ...(groups.some(([{ change }]) => change.rework.length > 0)
      ? [
          '## Before you begin',
          cautions({ battery })
            .map((text) => `- ${escapeMarkdown(text)}`)
            .join('\n'),
        ]
      : []),
  ].join('\n\n')}\n`;
}

function isWorthANote({ change }: CircuitChange): boolean {
  return change.electrical || change.rework.length > 0;
}
