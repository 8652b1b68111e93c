/** The command line itself: help, version, misspelt words, a reader that stops early. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { showsColours } from '../../server/command/output/terminal.js';
import { commands } from '../../server/command/commands/index.js';
import { read, root } from '../harness/checkout.js';
import { inProcess } from '../harness/in-process.js';
import { folderWith, lugwork } from '../harness/process.js';
import { broken, clean } from './circuits.js';

describe('help', () => {
  test.each([['--help'], ['-h'], ['help']])('lugwork %s lists every command', (word) => {
    const { code, out } = inProcess([word]);
    expect(code).toBe(0);
    for (const { name, summary } of commands) {
      expect(out).toContain(`lugwork ${name} `);
      expect(out).toContain(summary);
    }
  });

  test.each(commands.map(({ name }) => name))('lugwork %s --help shows its options and examples', (name) => {
    const { code, out } = inProcess([name, '--help']);
    expect(code).toBe(0);
    for (const option of commands.find((command) => command.name === name)!.options) expect(out).toContain(`--${option.name}`);
    expect(out).toContain('Examples:');
    expect(inProcess(['help', name]).out).toBe(out);
  });

  test('no line of it is wider than a page', () => {
    const wide = commands.flatMap(({ name }) =>
      inProcess([name, '--help'])
        .out.split('\n')
        .filter((line) => line.length > 132),
    );
    expect(wide).toEqual([]);
  });

  test('without a word it shows the help as a fault', () => {
    const { code, out, err } = inProcess([]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('lugwork check FILE');
  });
});

test('--version prints the version of the package', () => {
  const { version } = JSON.parse(read('package.json')) as { version: string };
  expect(lugwork(['--version'])).toEqual({ code: 0, out: `lugwork ${version}\n`, err: '' });
});

describe('what is misspelt is answered with what is near, and exit code 2', () => {
  test.each([
    [['chekc', 'a.lug'], 'there is no command chekc; did you mean check?'],
    [['solder'], 'there is no command solder; `lugwork --help` lists the commands'],
    [['--frobnicate'], 'there is no option --frobnicate; `lugwork --help` lists the commands'],
    [['check', '--strickt', 'a.lug'], 'lugwork check has no option --strickt; did you mean --strict?'],
    [['check', '--format', 'jsn', 'a.lug'], '--format jsn is not known; did you mean json? (text, json, sarif, junit, github)'],
    [['check', '--format'], '--format needs a value: text, json, sarif, junit, github'],
    [['check', '--strict=yes', 'a.lug'], '--strict takes no value'],
    [['check'], 'lugwork check needs FILE…, or --staged'],
    [['positions', 'a.lug', 'b.lug'], 'lugwork positions takes FILE; “b.lug” is one argument too many'],
    [['response', 'a.lug', '--points', 'many'], '--points takes a number from 2 to 100000, not “many”'],
    [['response', 'a.lug', '--from', '500', '--to', '100'], '--to 100 must be above --from 500'],
  ])('lugwork %j', (words, message) => {
    expect(lugwork(words, folderWith({ 'a.lug': clean }))).toEqual({ code: 2, out: '', err: `lugwork: ${message}\n` });
  });
});

test('a name that begins with a hyphen is given after --', () => {
  expect(inProcess(['check', '--', '-a.lug'], folderWith({ '-a.lug': clean })).code).toBe(0);
});

test('a reader that stops early is no fault', () => {
  const files = Object.fromEntries(
    Array.from({ length: 60 }, (_, index) => [`f/${index}.lug`, 'part a : nothing-like-it\n'.repeat(20)]),
  );
  const folder = folderWith(files);
  const launcher = join(root, 'server', 'bin.mjs');
  const { stdout, stderr } = spawnSync('sh', ['-c', `"${process.execPath}" "${launcher}" check f | head -n 1`], {
    cwd: folder,
    encoding: 'utf8',
  });
  expect(stderr).toBe('');
  expect(stdout.split('\n')).toHaveLength(2);
});

test.each([
  // By hand from no-color.org and force-color.org; where both are set Node.js itself (tty.getColorDepth) goes by FORCE_COLOR.
  [{}, true, true],
  [{}, false, false],
  [{ TERM: 'dumb' }, true, false],
  [{ NO_COLOR: '1' }, true, false],
  [{ NO_COLOR: '' }, true, true],
  [{ FORCE_COLOR: '1' }, false, true],
  [{ FORCE_COLOR: '0' }, true, false],
  [{ FORCE_COLOR: '' }, false, false],
  [{ FORCE_COLOR: '1', NO_COLOR: '1' }, false, true],
])('with %j on a terminal %s colours are shown %s', (env, isTerminal, shown) =>
  expect(showsColours(env, isTerminal)).toBe(shown),
);

test('--color says it for one call', () => {
  const folder = folderWith({ 'a.lug': broken });
  const escape = '\u001b[';
  expect(lugwork(['check', '--color', 'always', 'a.lug'], folder).out).toContain(escape);
  expect(lugwork(['check', '--color', 'never', 'a.lug'], folder).out).not.toContain(escape);
  expect(lugwork(['check', '--color', 'sometimes', 'a.lug'], folder).err).toContain('auto, always, never');
});

test('colours are for terminals, and for those who force them', () => {
  const folder = folderWith({ 'a.lug': broken });
  expect(lugwork(['check', 'a.lug'], folder, { FORCE_COLOR: '' }).out).not.toContain('\u001b');
  expect(lugwork(['check', 'a.lug'], folder, { FORCE_COLOR: '1' }).out).toContain('\u001b');
});

test('the launcher that npm links starts the command', () => {
  const { status, stdout } = spawnSync(process.execPath, [join(root, 'server', 'bin.mjs'), '--version'], { encoding: 'utf8' });
  expect({ status, stdout }).toEqual({ status: 0, stdout: lugwork(['--version']).out });
});
