/** `lugwork compare`: what changed in wires, parts and behaviour; also as git's external diff and textconv. */
import { capChange } from '../../../language/cap-findings.js';
import {
  type Change,
  compare as compareCircuits,
  type Counts,
  countsOf,
  factLines,
  overlayOf,
  renderChange,
  sumOf,
} from '../../../language/compare/index.js';
import { draw } from '../../../language/drawing/index.js';
import { oneLine } from '../../../language/escape.js';
import { type Call, CannotRun, type Command, exit, type Host } from '../command.js';
import { compareJson } from '../formats/compare-json.js';
import { compareMarkdown } from '../formats/compare-markdown.js';
import { compareText } from '../formats/compare-text.js';
import { choice } from '../options.js';
import { forceOption, type Form, outputOption, type Result, writeResult } from '../output/output.js';
import { folderChangeOf, pageOf, writePage } from '../folders/compare-pages.js';
import type { FolderChange } from '../folders/folder-change.js';
import { listed } from '../../../language/words.js';
import { type Sides, sidesOf, strayedSide } from '../compare-sides.js';

/** What git gives an external diff: the path, then file, hash and mode before and after; for a renamed file its new path and a header besides. */
const externalDiff = [7, 9];

export const compare: Command = {
  name: 'compare',
  operands: 'OLD NEW',
  arity: [1, 9],
  summary: 'show what changed in wires, parts and behaviour, of one circuit or of a folder',
  details: [
    'Reports changes in parts, wires (by their ends), pots, cut list and steps; positions that now sound, hum, read, peak differently or have another level, at each output; expectations now met or not met; findings new and fixed. If elements and nets are the same in every position, it says “no electrical change”. Renamed parts are recognised.',
    'With --git REV it takes one FILE and compares it with its version in that commit; with --git OLD..NEW it compares the versions in two commits, with --git OLD...NEW that of NEW with that of the merge base of OLD and NEW, as git does. Git is run without a shell, and nothing else in this command starts a process.',
    'With two folders, or --git and a folder, every circuit that is affected is reported, also through a file that it uses; files are paired by path, then by content. First comes the verdict: positions that fall silent, pickups lost, checks weakened, findings set aside. --git with a file of parts reports the circuits that use it.',
    '--fail-on is for a build: silent (a position that sounded), lost (a pickup heard nowhere any more), weakened (an expectation gone, narrowed or loosened), allow (a finding set aside), reading (a meter reading). A text that can’t be read in full fails any of them.',
    'As git’s external diff: `git config diff.lug.command "lugwork compare"` and `*.lug diff=lug` in .gitattributes. As its textconv, so that `git diff` and `git log -p` show sorted facts instead of lines: `git config diff.lug.textconv "lugwork compare --textconv"`. Files that a circuit uses are then read where its text comes from: the working folder, the index, or the newest commit that has this text, of HEAD first and then of all branches. The output names those that are not as in the working folder.',
    'The picture marks the changes on the drawing of the new circuit: N new, G gone, M moved, C changed, each with its own line style. Below stands what sounds in each position before and now.',
    'Exit code: 0 whether or not anything differs, 1 if --fail-on applies, 2 if the command could not run.',
  ],
  options: [
    {
      name: 'format',
      choices: ['text', 'markdown', 'json', 'svg', 'github', 'release-note'],
      summary: 'output format; Markdown suits a review comment',
    },
    {
      name: 'git',
      value: 'REV',
      summary: 'compare FILE with its version in a commit, or two commits by OLD..NEW or OLD...NEW',
    },
    {
      name: 'fail-on',
      value: 'LIST',
      summary: 'exit with 1 on any of silent, lost, weakened, allow, reading (commas between them)',
    },
    { name: 'all', summary: 'list every new or fixed finding, without the limits of 200 for a rule and 1,000 in all' },
    { name: 'textconv', summary: 'print the facts of one FILE as sorted lines, for git’s textconv' },
    outputOption,
    forceOption,
  ],
  examples: [
    'lugwork compare old.lug new.lug',
    'lugwork compare --git HEAD no-3.lug',
    'lugwork compare --git main...HEAD --format markdown circuits > comment.md',
    'lugwork compare --git v1.0..v1.1 --format release-note circuits',
    'lugwork compare --git main...HEAD --fail-on silent,lost,weakened,allow circuits',
  ],

  async run(call, host) {
    const gates = gatesOf(call);
    if (call.flags.has('textconv')) {
      writeResult(textconv(call, host), call, host);
      return exit.good;
    }
    const page = folderChangeOf(call, host);
    const { result, counts } = page === undefined ? await compared(call, host) : comparedFolders(page, call, host);
    writeResult(result, call, host);
    // Of what could not be read nothing is known, so that no gate passes.
    const failed = gates.some((gate) => counts[gate] > 0) || (gates.length > 0 && counts.unread > 0);
    return failed ? exit.findings : exit.good;
  },
};

const forms: Readonly<Record<string, Form>> = {
  json: 'JSON',
  markdown: 'Markdown',
  'release-note': 'Markdown',
  svg: 'SVG',
};

/** What a build may fail on. */
const gates = ['silent', 'lost', 'weakened', 'allow', 'reading'] as const;
type Gate = (typeof gates)[number];

function textconv(call: Call, host: Host): Result {
  const [file, more] = call.operands;
  if (file === undefined || more !== undefined) throw new CannotRun('lugwork compare --textconv takes one FILE');
  const side = strayedSide(file, host);
  const lines = [...factLines(side), ...(side.notes ?? []).map((note) => `note: ${note}`)];
  return { text: `${lines.map(oneLine).join('\n')}\n`, sources: side.sources, form: 'plain text' };
}

interface Compared {
  readonly result: Result;
  readonly counts: Counts;
}

function comparedFolders(page: FolderChange, call: Call, host: Host): Compared {
  const format = choice(call, compare, 'format');
  const counts = sumOf(page.circuits.map((circuit) => circuit.counts));
  const broken = page.files.filter(({ kind, errors = 0 }) => kind === 'unused' && errors > 0).length;
  return {
    result: { text: writePage(format, page, host), sources: page.sources, form: forms[format] ?? 'plain text' },
    counts: { ...counts, unread: counts.unread + broken },
  };
}

/** What `--fail-on` names. Throws `CannotRun` for a word that is none of them. */
function gatesOf(call: Call): readonly Gate[] {
  const words =
    call.values
      .get('fail-on')
      ?.split(',')
      .map((word) => word.trim()) ?? [];
  const unknown = words.find((word) => !(gates as readonly string[]).includes(word));
  if (unknown !== undefined) throw new CannotRun(`--fail-on takes ${listed(gates, 'and')}, not “${unknown}”`);
  return words as Gate[];
}

async function compared(call: Call, host: Host): Promise<Compared> {
  const sides = sidesOf(call, host, externalDiff);
  const format = choice(call, compare, 'format');
  const whole = compareCircuits(sides.before, sides.after);
  const origins = (['before', 'after'] as const).flatMap((which) =>
    (sides[which].notes ?? []).map((note) => `${which === 'before' ? 'old' : 'new'} version: ${note}`),
  );
  const said = { ...whole, notes: [...whole.notes, ...origins] };
  const change = call.flags.has('all') ? said : capChange(said);
  for (const side of [sides.before, sides.after]) {
    const errors = side.circuit.problems.filter(({ severity }) => severity === 'error').length;
    if (errors > 0)
      host.err(
        `lugwork: ${side.path} has ${errors} ${errors === 1 ? 'error' : 'errors'} in its text, so part of it is not compared\n`,
      );
  }
  const sources = [...sides.before.sources, ...sides.after.sources];
  return {
    result: { text: await written(format, change, sides, host), sources, form: forms[format] ?? 'plain text' },
    counts: countsOf(change),
  };
}

async function written(format: string, change: Change, sides: Sides, host: Host): Promise<string> {
  switch (format) {
    case 'json':
      return compareJson(change, sides);
    case 'markdown':
      return compareMarkdown(change, sides);
    case 'github':
    case 'release-note':
      return writePage(format, pageOf(change, sides, host), host);
    case 'svg':
      return picture(change, sides, host);
    default:
      return compareText(change, sides, host.colour);
  }
}

async function picture(change: Change, { after }: Sides, host: Host): Promise<string> {
  const thread = host.startLayout();
  try {
    const { scene, diagram, remarks } = await draw(after.circuit, thread.layout);
    for (const remark of remarks) host.err(`lugwork: ${after.path}: ${remark}\n`);
    return renderChange(scene, overlayOf(after.circuit, diagram, change));
  } finally {
    thread.dispose();
  }
}
