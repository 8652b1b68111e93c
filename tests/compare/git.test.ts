/** A real repository with a branch: its commits compared, git's own diff through the command, and the annotations of a build. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from '../harness/checkout.js';
import { inProcess, inProcessAsync } from '../harness/in-process.js';
import { lugwork } from '../harness/process.js';
import { repositoryWith } from '../harness/repository.js';
import { base } from './cases.js';

const bin = join(root, 'dist/lugwork.mjs');
const { folder, git } = repositoryWith({
  'parts/house.lug': '/** The house pot. */\ntype house-pot : pot { takes resistance 500k, taper audio|linear }\n',
  'circuits/no-42.lug': `use "../parts/house.lug"\n${base('two').replace('pot 500k audio', 'house-pot')}`,
  '.gitattributes': '*.lug diff=lug\n',
});
const file = 'circuits/no-42.lug';

function edit(path: string, change: (text: string) => string): void {
  const text = git('show', `HEAD:${path}`);
  const edited = change(text);
  expect(edited).not.toBe(text);
  writeFileSync(join(folder, path), edited);
}

git('checkout', '-q', '-b', 'quieter');
edit(file, (text) => text.replace('wire neck.hot to selector.B3', 'wire neck.hot to selector.A3'));
git('commit', '-qam', 'The neck on the other pole');
edit('parts/house.lug', (text) => text.replace('500k', '250k'));
git('commit', '-qam', 'Smaller house pots');

describe('--git', () => {
  test('compares the working folder with a commit, the files that it uses as that commit has them', async () => {
    const { code, out } = await inProcessAsync(['compare', '--git', 'main', file], folder);
    expect(code).toBe(0);
    expect(out.split('\n')[0]).toBe(`${file}, main → working folder: electrical change`);
    expect(out).toContain('> wire neck.hot to selector.B3: the end at selector.B3 moves to selector.A3');
    expect(out).toContain('volume: resistance 500 kΩ becomes 250 kΩ');
  });

  test('compares two commits, from another folder too', async () => {
    const { out } = await inProcessAsync(['compare', '--git', 'main..HEAD~1', 'no-42.lug'], join(folder, 'circuits'));
    expect(out).toContain('no-42.lug, main → HEAD~1: electrical change');
    expect(out).not.toContain('resistance');
    expect((await inProcessAsync(['compare', '--git', 'HEAD~1..HEAD', file], folder)).out).not.toContain('wires');
  });

  test('a file that a commit has not is empty there', async () => {
    writeFileSync(join(folder, 'circuits/no-43.lug'), base('one'));
    const { code, out } = await inProcessAsync(['compare', '--git', 'HEAD', 'circuits/no-43.lug'], folder);
    expect(code).toBe(0);
    expect(out).toContain('+ new part pickup (single-coil 7.5 kΩ 3 H 100 pF)');
    rmSync(join(folder, 'circuits/no-43.lug'));
  });

  test.each(['nonesuch', '-p', 'main:parts', ''])('“%s” is no commit', async (revision) => {
    const { code, err } = await inProcessAsync(['compare', `--git=${revision}`, file], folder);
    expect(code).toBe(2);
    expect(err).toMatch(/no commit|no revision/);
  });

  test('no word of a revision reaches a shell', async () => {
    const { code } = await inProcessAsync(['compare', '--git', 'main; touch owned', file], folder);
    expect(code).toBe(2);
    expect(git('status', '--porcelain')).toBe('');
  });
});

describe('as git’s own diff', () => {
  test('external diff tells each circuit that changed', () => {
    const out = git('-c', `diff.lug.command=${process.execPath} ${bin} compare`, 'diff', 'main', 'HEAD~1');
    expect(out).toContain(`${file}: electrical change`);
    expect(out).toContain('selector "both": sounds parallel(bridge, neck) becomes bridge');
  });

  test('textconv shows facts in place of lines, and none for another order of lines', () => {
    const textconv = ['-c', `diff.lug.textconv=${process.execPath} ${bin} compare --textconv`];
    const out = git(...textconv, 'diff', 'main', 'HEAD~1', '--', 'circuits');
    expect(out).toContain('-wire neck.hot to selector.B3');
    expect(out).toContain('+wire neck.hot to selector.A3');
    edit(file, (text) =>
      text
        .split(/\n(?=[a-z]+ )/)
        .reverse()
        .join('\n'),
    );
    expect(git('diff', '--', 'circuits')).not.toBe('');
    expect(
      git(...textconv, 'diff', '--', 'circuits')
        .split('\n')
        .filter((line) => /^[-+](?![-+])/.test(line)),
    ).toEqual([]);
    git('checkout', '-q', '.');
  });
});

test('the build’s annotations name the lines of the branch', () => {
  const { code, out } = inProcess(['check', '--format', 'github', 'circuits'], folder);
  expect(code).toBe(1);
  const line =
    git('show', `HEAD:${file}`)
      .split('\n')
      .findIndex((text) => text.startsWith('wire selector.B3 to selector.B2')) + 1;
  // With the lead gone, the jumper connects nothing; what is expected of two positions fails because of it.
  expect(out).toMatch(new RegExp(`^::error file=${file},line=${line},.*title=idle-wire::.*and 2 more follow from it$`, 'm'));
  expect(inProcess(['check', '--all', '--format', 'github', 'circuits'], folder).out).toContain('Expected hum cancelled');
});

test('a comment for the review, from a folder that is no repository’s top', () => {
  mkdirSync(join(folder, 'notes'), { recursive: true });
  const { code, out } = lugwork(
    ['compare', '--git', 'main..quieter', '--format', 'markdown', '../circuits/no-42.lug'],
    join(folder, 'notes'),
  );
  expect(code).toBe(0);
  expect(out).toContain('| selector "both" | parallel(bridge, neck) → **bridge** | cancelled → **present** |');
});
