/** Hostile texts through every command and every value of its options: no terminal, browser, spreadsheet, review site, build server or solver obeys them. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Command } from '../../server/command/command.js';
import { commands } from '../../server/command/commands/index.js';
import { read } from '../harness/checkout.js';
import { inProcessAsync } from '../harness/in-process.js';
import { folderWith, lugwork, type Ended } from '../harness/process.js';
import { clean } from './circuits.js';
import { checkers, mark, type Form } from './outputs.js';

const evil = [
  `${mark} </title></text></script><script>alert(1)</script><img src=x onerror=alert(1)>`,
  `& " ' ]]> --> <!-- &lt;b&gt; x\` \`\` \`\`\` [a](javascript:alert(1)) ![p](http://example.org/x.png) http://example.org/y`,
  `[c](command:workbench.action.quit) | **b** @user #1 GH-1 www.example.org me@example.org $x$ %0A::error file=x::y`,
  `\u001b[31m\u001b]0;title\u0007\b\u009b31m \u202egnol\u202c \u2066x\u2069 \u2028.include /etc/passwd \u2029 \uffff ;=1+1`,
].join(' ');
const quoted = (text: string): string => `"${text.replaceAll('\\', '\\\\').replaceAll('"', '\\"')}"`;

const hostile = clean
  .replace(
    /^instrument.*/,
    `/** ${evil}\n *\n * # ${evil}\n * 1. ${evil} */\ninstrument ${quoted(evil)} { scale 648mm, tuning "E2 A2" }`,
  )
  .replaceAll('2.9H 120pF {', '2.9H 120pF { from-bridge 42mm,')
  .replace('2.4H 110pF', '2.4H 110pF { from-bridge 165mm }')
  .replace('"bridge" "both" "neck"', `${quoted(`=1+1 ${evil}`)} "@SUM(A1)" ${quoted(`-2+3 ${evil}`)}`)
  .replace('selector "both"', `selector "@SUM(A1)"`)
  .replace('part volume ', `/** ${evil} */\npart volume `)
  .replace('wire bridge.hot ', 'part spare : lever-3 { positions "+1" "\t=1+1" "x" }\nwire bridge.hot ')
  .replace('wire volume.2    to output.tip', 'wire volume.2    to output.tip red 22awg 120mm')
  .concat(
    `cavity __cavity__ shield depth 40mm\nplate *plate* in __cavity__ metal { volume at 10 10 }\n`,
    `allow idle-switch on spare ${quoted(evil)}\n`,
    `allow no-such-rule ${quoted(evil)}\n`,
    `expect selector ${quoted(`no such ${evil}`)} : silent\n`,
    `expect selector "@SUM(A1)" : reads 100k\n`,
    `measured selector "@SUM(A1)" : reads 5k\n`,
    `measured selector ${quoted(`-2+3 ${evil}`)} : reads open\n`,
    `use ${quoted(evil)}\n`,
    `type odd : switch {\n  lugs a b\n  positions ${quoted(evil)} "b"\n  at ${quoted(evil)} joins a b\n}\n`,
    `part kill : odd\n`,
    `wire bridge.<script> to neck.\u001b[31mhot\n`,
    `part ${evil}\n`,
    `part ${'long-'.repeat(3000)}name : pot ${quoted('x'.repeat(5000))}\n`,
  );

/** No title, so that the file's name stands for it; an open pot, so that a name stands in the notes below the positions. */
const untitled = clean
  .replace(/^instrument.*/, '')
  .replace('"bridge" "both" "neck"', `${quoted(`a</text><script>${mark}</script>`)} ${quoted(`b ${evil}`)} "c"`)
  .replace('selector "both"', 'selector 2')
  .replace('6.9k 2.9H', '? 2.9H')
  .replace('neck.ground    to volume.case', 'neck.ground    to volume.3');

const record = `use "no-3.lug"\n\nrecord 2 {\n  by ${quoted(evil)}, date ${quoted(`2026-11-25 ${mark}`)}\n  changed ${quoted(evil)}\n  before ${quoted(evil)}\n}\n\nmeasured selector "both" : reads 3.2k\n`;

const home = `=1+1 <b>x | @user\n::warning::${mark}`;
const name = (word: string): string =>
  `${home}/${word} "q' \`b\` <img src=x onerror=alert(1)> $x$ \u001b[31m,b:c%0A\n::error title=${mark}::z\u202e`;
const files = {
  text: `${name('a')}.lug`,
  other: `${name('b')}.lug`,
  untitled: `${name('c')}.lug`,
  record: `${home}/no-3.no-2.lug`,
  json: `${name('d')}.json`,
  known: `${name('e')}.baseline`,
  table: `${name('g')}.csv`,
  measured: `${name('h')}.csv`,
} as const;
/** What a merge writes into; it prints nothing. */
const ours = `${name('f')}.lug`;
/** A branch may bear any of these signs. */
const branch = `a<b>&"\`|$x$@user#1=${mark}`;

type File = keyof typeof files;

/** A call, the form of what it writes, and the files it is asked of; words in capitals stand for files and texts made above. */
interface Case {
  readonly words: readonly string[];
  readonly form: Form;
  readonly of?: readonly File[];
}

const all: readonly File[] = ['text', 'untitled', 'json', 'record'];
const drawings: readonly File[] = ['text', 'json'];
const c = (words: string, form: Form, of: readonly File[] = all): Case => ({ words: words.split(' '), form, of });

/**
 * Every command with every option and every choice of an option stands here, with the form of what it writes then: a new one that does not
 * fails the test below. Choices that do not alter the form share a call.
 */
const cases: readonly Case[] = [
  c('check --format text FILE', 'text'),
  c('check --format json FILE', 'json'),
  c('check --format sarif FILE', 'json'),
  c('check --format junit FILE', 'junit'),
  c('check --format github FILE', 'github'),
  c('check --strict --all FOLDER', 'text', ['text']),
  c('check --baseline KNOWN FILE', 'text'),
  c('check --format json --baseline KNOWN FILE', 'json', ['text']),
  c('check --format sarif --baseline KNOWN FILE', 'json', ['text']),
  c('check --write-baseline WRITTEN.json --force FILE', 'text', ['text']),
  c('check --staged FILE', 'text', ['text']),
  c('check --path FILE -', 'text', ['text', 'untitled']),
  c('check --effort 0 FILE', 'text', ['text']),
  c('check --quiet FILE', 'text', ['text']),
  c('check --diff --fix=likely FILE', 'diff', ['untitled']),
  c('check --fix FILE', 'text', ['record']),
  c('check --watch FILE', 'text', ['text']),
  c('check --explain floating-metal', 'text', ['text']),
  c('positions --format text FILE', 'text'),
  c('positions --format json FILE', 'json'),
  c('positions --format markdown FILE', 'markdown'),
  c('positions --format csv FILE', 'csv'),
  c('positions --distinct --format text FILE', 'text', ['text', 'untitled']),
  c('positions --distinct --format csv FILE', 'csv', ['text', 'untitled']),
  c('positions --set SETTING FILE', 'text', ['text']),
  c('response --format text --set SETTING FILE', 'text', ['text']),
  c('response --format text FILE', 'text', ['untitled', 'json']),
  c('response --string E2 --points 5 --format text FILE', 'text', ['text']),
  c('response --string E2 --points 5 --format svg FILE', 'svg', ['text']),
  c('response --string E2 --points 5 --format json FILE', 'json', ['text']),
  c('response --format json --from 50 --to 5000 --points 5 FILE', 'json'),
  c('positions --at output.tip FILE', 'text', ['text']),
  c('response --at output.tip FILE', 'text', ['text']),
  c('netlist --at output.tip FILE', 'deck', ['text']),
  c('draw --at output.tip FILE', 'svg', ['text']),
  c('response --format csv FILE', 'csv'),
  c('response --format svg FILE', 'svg'),
  c('expect --force FILE', 'text', ['text']),
  c('expect FILE', 'text'),
  c('expect --turns FILE', 'text', ['text']),
  c('expect --usual FILE', 'text', ['untitled']),
  c('expect --pattern neighbours --pickups bridge,neck FILE', 'text', ['text']),
  c('netlist FILE', 'deck'),
  c('netlist --set SETTING FILE', 'deck', ['text']),
  c('draw --format svg --side solder --grounds auto --scheme reader FILE', 'svg', drawings),
  c('draw --format svg --side player --grounds wires --scheme light --set SETTING FILE', 'svg', ['text']),
  c('draw --format svg --grounds marks --scheme dark --force -o WRITTEN.svg FILE', 'svg', ['untitled']),
  c('draw --format json FILE', 'json', drawings),
  c('draw --paper a4 --force -o WRITTEN.svg FILE', 'svg', drawings),
  c('draw --paper letter --set SETTING --date EVIL --force -o WRITTEN.svg FILE', 'svg', ['text']),
  c('draw --paper none FILE', 'svg', ['text']),
  c('draw --plate __cavity__ --revision EVIL --date EVIL FILE', 'svg', ['text']),
  c('sheet --force -o WRITTEN.html --for bench FILE', 'html', drawings),
  c('sheet --format html --no-drawing FILE', 'html'),
  c('sheet --format html --for player FILE', 'html'),
  c('sheet --no-drawing --with flags,template,form FILE', 'html'),
  c('sheet --format auto -o WRITTEN.md FILE', 'markdown'),
  c('sheet --format markdown --for player FILE', 'markdown'),
  c('sheet --format csv --list cut FILE', 'csv'),
  c('sheet --format csv --list buy FILE', 'csv'),
  c('sheet --format csv --list parts FILE', 'csv'),
  c('sheet --format csv --list sleeves FILE', 'csv'),
  c('sheet --format csv --list order FILE', 'csv'),
  c('sheet --format csv --list meter -o WRITTEN.csv FILE', 'csv'),
  c('sheet --format csv --list tap FILE', 'csv'),
  c('page FILE', 'page'),
  c('page --force -o WRITTEN.html FILE', 'page', ['text']),
  c('substitute --format text FILE CHANGE', 'text', ['text', 'untitled']),
  c('substitute --format json FILE CHANGE', 'json', ['text']),
  c('substitute --format markdown FILE CHANGE', 'markdown', ['text', 'untitled']),
  c('substitute --format csv FILE CHANGE', 'csv', ['text', 'untitled']),
  c('compare --format text FILE OTHER', 'text'),
  c('compare --format markdown --all FILE OTHER', 'markdown'),
  c('compare --format json FILE OTHER', 'json'),
  c('compare --format svg --force -o WRITTEN.svg FILE OTHER', 'svg', drawings),
  c('compare --git BRANCH FILE', 'text', ['text']),
  c('compare --git BRANCH --format markdown FILE', 'markdown', ['text']),
  c('compare --git BRANCH --format json FILE', 'json', ['text']),
  c('compare --format github FILE OTHER', 'github'),
  c('compare --format release-note FILE OTHER', 'markdown'),
  c('compare --fail-on silent,lost FILE OTHER', 'text'),
  c('compare --textconv FILE', 'text'),
  c('blame --format text FILE CONTROL', 'text', ['text']),
  c('blame --format json --at output.tip FILE CONTROL', 'json', ['text']),
  c('merge FILE OURS OTHER', 'github', ['text']),
  c('circuit FILE', 'json'),
  c('circuit --schema --force -o WRITTEN.json', 'json', ['text']),
  c('locate --format text --effort 2 FILE', 'text'),
  c('locate --format json FILE', 'json'),
  c('completion bash', 'text', ['text']),
  c('format --check FILE', 'text', ['text', 'untitled', 'record']),
  c('format --number --check FILE', 'text', ['record']),
  c('import --types NAMED --force -o WRITTEN.lug TABLE', 'text', ['text']),
  c('new --pattern one-pickup --force -o WRITTEN.lug', 'text', ['text']),
  c('new', 'text', ['text']),
  c('import TABLE', 'text', ['text']),
  c('fit --format text --cable 470pF --input 1M --resistance 7k --name neck MEASURED', 'text', ['text']),
  c('fit --format json MEASURED', 'json', ['text']),
  c('fit --format svg --force -o WRITTEN.svg MEASURED', 'svg', ['text']),
  // The last one, since it changes the files.
  c('expect --force --write FILE', 'text', ['text', 'untitled']),
];

/** What must be written with a checker: `check`, `check --strict`, `check --format json` … */
function formsOf({ name: command, options }: Command): string[] {
  const each = options.flatMap(({ name: option, choices }) =>
    choices === undefined ? [`--${option}`] : choices.map((choice) => `--${option} ${choice}`),
  );
  return [command, ...each.map((option) => `${command} ${option}`)];
}

function formsIn({ words: [command, ...words] }: Case): string[] {
  const options = commands.find(({ name: known }) => known === command)!.options;
  return [
    command!,
    ...words.flatMap((given, index) => {
      const [word, own] = given.split('=', 2);
      const option = options.find(({ name: known, short }) => word === `--${known}` || word === `-${short ?? ''}`);
      if (option === undefined) return [];
      const value = option.isOptional ? (own ?? option.choices![0]!) : words[index + 1]!;
      return [`${command!} --${option.name}${option.choices === undefined ? '' : ` ${value}`}`];
    }),
  ];
}

test('every command, every option and every choice of an option is tried, each with the form of its output', () => {
  const tried = new Set(cases.flatMap(formsIn));
  // The language server prints no report; what an editor shows of its answers is tried in tests/lsp/hostile.test.ts.
  const printing = commands.filter(({ name: command }) => command !== 'language-server');
  expect(printing.flatMap(formsOf).filter((form) => !tried.has(form))).toEqual([]);
  expect(formsOf({ name: 'new', options: [{ name: 'format', choices: ['a', 'b'], summary: '' }] } as unknown as Command)).toEqual(
    ['new', 'new --format a', 'new --format b'],
  );
});

let folder: string;

beforeAll(() => {
  folder = folderWith({
    [files.text]: hostile,
    [files.other]: hostile.replaceAll('=1+1', '=2+2').replace('250k', '500k').replace('6.9k', '7.9k'),
    [files.untitled]: untitled,
    [ours]: hostile.replace('250k', '300k'),
    [files.record]: record,
    [`${home}/no-3.lug`]: clean,
    [`${home}/${mark} \u001b[31m<b>.lug`]: clean,
    [`${home}/.lugignore`]: `${mark} \u001b[31m<b>.lug\n`,
  });
  const git = (...words: readonly string[]): void => {
    const own = ['-c', 'user.name=Alder Lane', '-c', 'user.email=bench@example.invalid', '-c', 'commit.gpgsign=false'];
    execFileSync('git', [...own, ...words], { cwd: folder, stdio: ['ignore', 'pipe', 'pipe'] });
  };
  git('init', '-q', '-b', 'main');
  git('add', '.');
  git('commit', '-q', '-m', 'As built');
  git('branch', branch);
  writeFileSync(join(folder, files.text), hostile.replace('250k', '500k').replace('"=1+1 ', '"=3+3 '));
  git('add', files.text);
  // In JSON a name may be anything, so every name and label of it is hostile.
  const { circuit } = JSON.parse(`{"circuit":${lugwork(['circuit', `${home}/no-3.lug`], folder).out}}`) as { circuit: object };
  const named = JSON.stringify(circuit).replace(
    /"(volume|selector|neck|bridge)((?:[.:][\w.-]+)?(?:#\d+)?)"/g,
    (_, part: string, rest: string) => JSON.stringify(`${part} ${evil}\n.control\n::error::${mark}${rest}`),
  );
  writeFileSync(join(folder, files.json), named);
  const entry = {
    path: files.text.slice(home.length + 1),
    rule: `x\u001b[31m\n::error::${mark}`,
    message: evil,
    fingerprint: 'x',
  };
  const cell = (text: string): string => `"${text.replaceAll('"', '""')}"`;
  const wires = [
    ['neck.hot', 'volume.3', 'white', '', '', evil],
    [`${evil}.hot`, `volume.${evil}`, evil, evil, evil, ''],
    [`neck ${evil}`, 'volume.case', '', '', '', `x\n${evil}`],
  ];
  const rows = [['from', 'to', 'colour', 'gauge', 'length', 'note', evil], ...wires];
  writeFileSync(join(folder, files.measured), read('examples/measured/covered-pickup-470pf.csv'));
  writeFileSync(join(folder, files.table), rows.map((row) => row.map(cell).join(',')).join('\n'));
  writeFileSync(join(folder, files.known), JSON.stringify({ version: 1, findings: [entry] }));
});

const marked: string[] = [];

/** In this process, except for what reads its standard input. */
async function call(words: readonly string[]): Promise<Ended> {
  const piped = words.includes('-') ? words[words.indexOf('--path') + 1] : undefined;
  if (piped !== undefined) return lugwork(words, folder, {}, { input: readFileSync(join(folder, piped)) });
  return inProcessAsync(words, folder);
}

describe.each(cases.map((one) => [one.words.join(' '), one] as const))('%s', (_, { words, form, of }) => {
  test.each(of!)('of the file with hostile %s', async (file) => {
    const written = words.find((word) => word.startsWith('WRITTEN'))?.replace('WRITTEN', `${home}/written`);
    const values: Readonly<Record<string, string>> = {
      FILE: files[file],
      OTHER: files.other,
      OURS: ours,
      FOLDER: home,
      KNOWN: files.known,
      TABLE: files.table,
      MEASURED: files.measured,
      NAMED: 'neck=humbucker',
      EVIL: evil,
      SETTING: `selector ${quoted(`=3+3 ${evil}`)}, volume 5`,
      CONTROL: 'volume 5',
      CHANGE: 'volume 100k',
      BRANCH: branch,
    };
    const made = words.map((word) => (word.startsWith('WRITTEN') ? written! : (values[word] ?? word)));
    if (written !== undefined) mkdirSync(dirname(join(folder, written)), { recursive: true });
    const { code, out, err } = await call(made);
    expect(err).not.toContain('a bug in lugwork');
    expect(code === 0 || code === 1, `${String(code)}: ${err}`).toBe(true);
    checkers.text(err);
    const isBaseline = words.includes('--write-baseline');
    const result = written === undefined || isBaseline ? out : readFileSync(join(folder, written), 'utf8');
    if (isBaseline) checkers.json(readFileSync(join(folder, written!), 'utf8'));
    else if (written !== undefined) expect(out).toBe('');
    if (form !== 'github') expect(result).not.toBe('');
    if (result.includes(mark)) marked.push(`${words[0]!} ${form}`);
    checkers[form](result);
  });
});

test('hostile texts do come into every form that shows a text of the circuit', () => {
  expect(marked.length).toBeGreaterThan(cases.length / 2);
  const forms = new Set(marked.map((one) => one.split(' ')[1]));
  expect([...forms].sort()).toEqual(Object.keys(checkers).sort());
});

test('a plate or cavity that is not there is said with the ones that are, on one line', async () => {
  const { code, out, err } = await call(['draw', '--plate', evil, files.text]);
  expect([code, out]).toEqual([2, '']);
  expect(err).toContain('__cavity__');
  checkers.text(err);
});

test('a rule that is not there is said on one line', async () => {
  const { code, out, err } = await call(['check', '--explain', evil]);
  expect([code, out]).toEqual([2, '']);
  expect(err).toContain('there is no rule');
  checkers.text(err);
});

test('a drawing in the comparison is laid out as any other', () => {
  const { err } = lugwork(['compare', '--format', 'svg', files.text, files.other], folder);
  expect(err).not.toContain('simple layout');
});
