/** `lugwork merge`: three versions of a circuit made one, as git's merge driver. */
import { resolve } from 'node:path';
import { changeSections, compare, type Change } from '../../../language/compare/index.js';
import { mergeTexts } from '../../../language/merge-texts.js';
import { CannotRun, exit, type Command, type Host } from '../command.js';
import { replaceFile } from '../output/write-file.js';
import { circuitOf, projectWith, readText, uriOf, type Text } from '../reading/reading.js';

export const merge: Command = {
  name: 'merge',
  operands: 'BASE OURS THEIRS [PATH]',
  arity: [3, 4],
  summary: 'merge two versions of a circuit statement by statement, as git’s merge driver',
  details: [
    'Writes the result into OURS. A statement that one side changed is taken from it; new `measured` lines of both sides are both kept; layout and comments stay. What both sides changed differently stands between git’s usual marks. PATH says where the circuit belongs, so that its `use` lines find their files.',
    'As git’s merge driver: `git config merge.lug.driver "lugwork merge %O %A %B %P"` and, in .gitattributes, `*.lug merge=lug`.',
    'On a conflict, standard error says what each side does to positions and controls compared with the base. After a merge without conflict it lists what neither side does alone.',
    'Exit code: 0 if the merge is clean, 1 if there are conflicts, 2 if the command could not run; OURS is then as it was.',
  ],
  options: [],
  examples: ['lugwork merge base.lug ours.lug theirs.lug'],

  run(call, host) {
    const [base = '', ours = '', theirs = '', path = ours] = call.operands;
    const [old, mine, other] = [versionOf(base, host), versionOf(ours, host), versionOf(theirs, host)];
    const { text, conflicts } = mergeTexts(old.text, mine.text, other.text);
    const hasMark = (mine.hasMark === old.hasMark ? other : mine).hasMark === true;
    const { problem } = replaceFile(resolve(host.cwd, ours), (hasMark ? '\uFEFF' : '') + text);
    if (problem !== undefined) throw new CannotRun(`${ours} can’t be written: ${problem}`);
    const change = (after: string): Change => changeBetween(old.text, after, path, host);
    const [us, them] = [electrical(change(mine.text)), electrical(change(other.text))];
    if (conflicts > 0) {
      host.err(`lugwork: ${path}: ${conflicts} ${conflicts === 1 ? 'conflict' : 'conflicts'}\n`);
      for (const [side, lines] of [['ours', us] as const, ['theirs', them] as const])
        for (const line of lines.length === 0 ? ['no electrical change'] : lines) host.err(`lugwork: ${side}: ${line}\n`);
      return exit.findings;
    }
    const known = new Set([...us, ...them]);
    for (const line of electrical(change(text)).filter((one) => !known.has(one)))
      host.err(`lugwork: ${path}: only in the merged circuit: ${line}\n`);
    return exit.good;
  },
};

function versionOf(file: string, host: Host): Text {
  const read = readText(resolve(host.cwd, file));
  if ('problem' in read) throw new CannotRun(`${file}: ${read.problem}`);
  return read;
}

function changeBetween(before: string, after: string, path: string, host: Host): Change {
  const uri = uriOf(path, host.cwd);
  const side = (text: string) => ({ circuit: circuitOf(projectWith(uri, text, host), uri), findings: [], aside: [] });
  return compare(side(before), side(after));
}

/** What a change does, a sentence each. */
function electrical(change: Change): readonly string[] {
  return changeSections(change)
    .filter(({ title }) => title === 'positions' || title === 'controls')
    .flatMap(({ lines }) => lines.map(({ says }) => says));
}
