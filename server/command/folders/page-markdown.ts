/** Many circuits compared, as one comment for a review: the verdict, what must not be missed, then each circuit. */
import { publicPath } from '../compare-sides.js';
import { briefCautions } from '../../../language/cautions.js';
import { counted } from '../../../language/circuit/index.js';
import { escapeMarkdown } from '../../../language/escape.js';
import { changeSections, type Change } from '../../../language/compare/index.js';
import { fold, positionTable, sectionBlocks, sectionLines } from '../formats/change-blocks.js';
import {
  alarmLine,
  alarmsOf,
  causeOf,
  effectsOf,
  fileLine,
  groupsOf,
  headline,
  withoutAlarms,
  type Alarm,
  type Group,
} from './summary.js';
import type { FolderChange } from './folder-change.js';

/** By this a build finds its earlier comment, so that there is one. */
export const commentMarker = '<!-- lugwork: wiring review -->';

/** A hosted review takes 65,536 characters in one comment. */
const mostCharacters = 60_000;
/** The least that is kept free for the last lines. */
const reserve = 1_500;
const mostLines = 60;

export function pageMarkdown(page: FolderChange): string {
  const { unread, weakened, aside } = alarmsOf(page);
  const head = [
    commentMarker,
    `### Wiring: ${escapeMarkdown(headline(page))}`,
    escapeMarkdown(`${publicPath(page.before)} → ${publicPath(page.after)}`),
    ...alarmBlock('Not read in full', unread),
    ...alarmBlock('Checks weakened', weakened),
    ...alarmBlock('Set aside', aside),
    ...listBlock('Files', page.files.map(fileLine)),
  ];
  const groups = groupsOf(page);
  const foot = groups.some(([{ change }]) => change.rework.length > 0)
    ? [`_${briefCautions.map(escapeMarkdown).join(' ')}_`]
    : [];
  return `${[...head, ...fitted(groups, mostCharacters - reserve - lengthOf([...head, ...foot])), ...foot].join('\n\n')}\n`;
}

/** Each group in full while there is room, then without its details, then its line alone; what finds no room is counted. */
function fitted(groups: readonly Group[], room: number): readonly string[] {
  const blocks: string[] = [];
  let left = room;
  let [shortened, omitted] = [0, 0];
  groups.forEach((group, index) => {
    // A line each for those that follow comes before the details of this one.
    const later = lengthOf(groups.slice(index + 1).map((one) => title(one)));
    const forms = [fullBlock(group), shortBlock(group), title(group)];
    const form = forms.findIndex((text) => text.length + 2 <= left - (text === forms[2] ? 0 : Math.min(later, left / 2)));
    const block = forms[form];
    if (block === undefined) {
      omitted += group.length;
      return;
    }
    if (form > 0) shortened += 1;
    blocks.push(block);
    left -= block.length + 2;
  });
  return [
    ...blocks,
    ...(shortened === 0
      ? []
      : [`${counted(shortened, 'circuit')} shortened to fit in one comment; \`lugwork compare\` shows all.`]),
    ...(omitted === 0 ? [] : [`${counted(omitted, 'more circuit')} not listed.`]),
  ];
}

function lengthOf(blocks: readonly string[]): number {
  return blocks.reduce((sum, block) => sum + block.length + 2, 0);
}

function alarmBlock(name: string, alarms: readonly Alarm[]): readonly string[] {
  return listBlock(name, alarms.map(alarmLine));
}

function listBlock(name: string, lines: readonly string[]): readonly string[] {
  if (lines.length === 0) return [];
  const rest = lines.length - mostLines;
  const shown = lines.slice(0, mostLines).map((line) => `- ${escapeMarkdown(shortened(line))}`);
  return [
    `#### ${name}`,
    [...shown, ...(rest > 0 ? [`- and ${counted(rest, 'more')}`.replace(/mores$/, 'more')] : [])].join('\n'),
  ];
}

/** A line of a list that is long for its text, not for its sense. */
function shortened(line: string): string {
  return line.length > 500 ? `${line.slice(0, 500)}…` : line;
}

function title(group: Group): string {
  const [{ change, path, earlier }, ...others] = group;
  const name = change.title.after || change.title.before || path;
  const verdict = change.unread.length > 0 ? change.summary : effectsOf([group[0]]);
  const paths = [path, ...others.map((other) => other.path)].map(publicPath);
  const listed = [...paths.slice(0, 12), ...(paths.length > 12 ? [counted(paths.length - 12, 'more file')] : [])].join(', ');
  const cause = causeOf(group);
  const from = earlier === undefined ? '' : `, earlier ${earlier}`;
  return [
    `### ${escapeMarkdown(name)}${others.length === 0 ? '' : ` and ${counted(others.length, 'other')}, in the same way, with figures of their own`}: ${escapeMarkdown(verdict)}`,
    escapeMarkdown(`${listed}${from}${cause === '' ? '' : `, ${cause}`}`),
  ].join('\n\n');
}

const detailed = new Set(['instrument', 'parts', 'wires', 'record', 'cut list', 'steps', 'notes']);
/** What stands under what the player hears. */
const inTables = new Set(['positions', 'lost', 'controls']);

function fullBlock(group: Group): string {
  const [{ change }] = group;
  const lines = changeSections(change)
    .filter(({ title: name }) => detailed.has(name))
    .flatMap((section) => [`**${section.title}**`, sectionLines(section).join('\n')]);
  return [shortBlock(group), ...(lines.length === 0 ? [] : [fold('Parts, wires, cut list and steps', lines.join('\n\n'))])].join(
    '\n\n',
  );
}

function shortBlock(group: Group): string {
  const [{ change }] = group;
  const bench = change.rework.map((text, index) => `${index + 1}. ${escapeMarkdown(text)}`);
  return [
    title(group),
    ...headed('What the player hears', [
      positionTable(change.positions, ['sounds', 'hum', 'peak', 'level']),
      list([
        ...change.lost.map((name) => `${name} is not heard in any position now`),
        ...change.controls.map(({ says }) => says),
      ]),
    ]),
    ...headed('What the meter reads', [positionTable(change.positions, ['reads'])]),
    ...checkBlocks(change),
    ...headed('At the bench, on one that is built', [bench.join('\n') || undefined]),
  ].join('\n\n');
}

function checkBlocks(change: Change): readonly string[] {
  return sectionBlocks(withoutAlarms(change), new Set([...detailed, ...inTables]));
}

function headed(heading: string, blocks: readonly (string | undefined)[]): readonly string[] {
  const some = blocks.filter((block) => block !== undefined);
  return some.length === 0 ? [] : [`#### ${heading}`, ...some];
}

function list(lines: readonly string[]): string | undefined {
  return lines.length === 0 ? undefined : lines.map((line) => `- ${escapeMarkdown(line)}`).join('\n');
}
