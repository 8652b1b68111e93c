/** Many circuits compared, for the terminal: the verdict, what must not be missed, then each circuit with its sections. */
import { counted } from '../../../language/circuit/index.js';
import { changeSections } from '../../../language/compare/index.js';
import { oneLine } from '../../../language/escape.js';
import { createInk } from '../output/terminal.js';
import { alarmLine, alarmsOf, causeOf, effectsOf, fileLine, groupsOf, headline, withoutAlarms, type Alarm } from './summary.js';
import type { FolderChange } from './folder-change.js';

export function pageText(page: FolderChange, colour: boolean): string {
  const paint = createInk(colour);
  const { unread, weakened, aside } = alarmsOf(page);
  const section = (title: string, lines: readonly string[]): readonly string[] =>
    lines.length === 0 ? [] : ['', paint('strong', title), ...lines.map((line) => `  ${oneLine(line)}`)];
  const alarms = (title: string, all: readonly Alarm[]): readonly string[] => section(title, all.map(alarmLine));
  const circuits = groupsOf(page).flatMap((group) => {
    const [{ change, path, earlier }, ...others] = group;
    const verdict = change.unread.length > 0 ? change.summary : effectsOf([group[0]]);
    const cause = causeOf(group);
    return [
      '',
      `${paint('strong', oneLine(path))}: ${oneLine(verdict)}`,
      ...(earlier === undefined ? [] : [`  earlier ${oneLine(earlier)}`]),
      ...(cause === '' ? [] : [`  ${oneLine(cause)}`]),
      ...(others.length === 0
        ? []
        : [
            `  ${counted(others.length, 'other circuit')} in the same way, with figures of their own: ${oneLine(others.map((one) => one.path).join(', '))}`,
          ]),
      ...changeSections(withoutAlarms(change)).flatMap(({ title, lines }) => [
        `  ${title}`,
        ...lines.map(({ mark, says }) => `    ${mark === '' ? '' : `${mark} `}${oneLine(says)}`),
      ]),
      ...(change.rework.length === 0 ? [] : ['  on one that is built', ...change.rework.map((text) => `    ${oneLine(text)}`)]),
    ];
  });
  return `${[
    `${paint('strong', oneLine(`${page.before} → ${page.after}`))}: ${oneLine(headline(page))}`,
    ...alarms('not read in full', unread),
    ...alarms('checks weakened', weakened),
    ...alarms('set aside', aside),
    ...section('files', page.files.map(fileLine)),
    ...circuits,
  ].join('\n')}\n`;
}
