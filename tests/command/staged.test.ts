/** `check --staged` in a real repository, and as the hook of the guide: what the index has decides, the working folder never. */
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, expect, test } from 'vitest';
import { read, root } from '../harness/checkout.js';
import { inProcess } from '../harness/in-process.js';
import { lugwork } from '../harness/process.js';
import { repositoryWith, type Repository } from '../harness/repository.js';
import { clean } from './circuits.js';

const circuit = 'a shop/no 214.lug';
const broken = clean.replace(/^wire neck\.ground .*\n/m, '');
const house = '/** The house pot. */\ntype house-pot : pot { takes resistance 250k, taper audio|linear }\n';
/** Uses the house pot through a file between. */
const user = `use "../parts/pots.lug"\n${clean.replace('pot 250k audio', 'house-pot')}`;

/** The line of the guide, after the words that announce it. */
const [, line = ''] = /## Before a commit\n\n.*\n\n```sh\n(.*)\n```/.exec(read('guides/build.md')) ?? [];

let repository: Repository;

beforeEach(() => {
  repository = repositoryWith({
    [circuit]: clean,
    'a shop/no-215.lug': user,
    'parts/pots.lug': 'use "house.lug"\n',
    'parts/house.lug': house,
    'notes.txt': 'none\n',
  });
  const { folder, write } = repository;
  mkdirSync(join(folder, '.git/hooks'), { recursive: true });
  write({
    '.git/hooks/pre-commit': `${line}\n`,
    '.git/bin/npx': `#!/bin/sh\nshift\nexec "${process.execPath}" "${join(root, 'dist/lugwork.mjs')}" "$@"\n`,
  });
  for (const path of ['hooks/pre-commit', 'bin/npx']) chmodSync(join(folder, '.git', path), 0o755);
});

/** `git WORDS` with the hook. */
function git(...words: readonly string[]): { readonly code: number | null; readonly said: string } {
  const names = ['-c', 'user.name=Alder Lane', '-c', 'user.email=bench@example.invalid', '-c', 'commit.gpgsign=false'];
  const { status, stdout, stderr } = spawnSync('git', [...names, ...words], {
    cwd: repository.folder,
    encoding: 'utf8',
    env: { ...process.env, PATH: `${join(repository.folder, '.git/bin')}:${process.env['PATH']}` },
  });
  return { code: status, said: stdout + stderr };
}

function staged(words: readonly string[] = [], folder = '.') {
  return inProcess(['check', '--staged', '--effort', '0', ...words], join(repository.folder, folder));
}

test('the guide’s line is short and sound', () => {
  expect(line).toBe('npx lugwork check --staged --strict');
});

test('a broken staged change with a repaired working copy is refused, the reverse passes', () => {
  const { write } = repository;
  write({ [circuit]: broken });
  git('add', '.');
  write({ [circuit]: clean });
  const refused = git('commit', '-m', 'Broken');
  expect(refused.code).not.toBe(0);
  expect(refused.said).toContain('neck.ground is not soldered to anything');
  expect(refused.said).toContain(`${circuit}:`);
  write({ [circuit]: `// repaired\n${clean}` });
  git('add', '.');
  write({ [circuit]: broken });
  const passed = git('commit', '-m', 'Sound');
  expect(passed.said).toContain('1 file changed');
  expect(passed.code).toBe(0);
});

test('git commit -a and git commit PATH make an index of their own, which is the one that counts', () => {
  const { write } = repository;
  write({ [circuit]: broken });
  expect(git('commit', '-am', 'Broken').code).not.toBe(0);
  write({ 'notes.txt': 'more\n' });
  git('add', '.');
  // Only the notes are committed here, though the broken circuit is staged.
  expect(git('commit', '-m', 'Notes', 'notes.txt').said).toContain('Nothing to check');
  expect(git('commit', '-m', 'Broken', circuit).said).toContain('neck.ground is not soldered to anything');
});

test('in a linked working tree', () => {
  const { folder } = repository;
  git('worktree', 'add', '-q', '-b', 'other', '.git/tree');
  const tree = join(folder, '.git/tree');
  repository.write({ [`.git/tree/${circuit}`]: broken });
  const { status, stderr, stdout } = spawnSync(
    'git',
    ['-c', 'user.name=A', '-c', 'user.email=a@example.invalid', 'commit', '-am', 'Broken'],
    {
      cwd: tree,
      encoding: 'utf8',
      env: { ...process.env, PATH: `${join(folder, '.git/bin')}:${process.env['PATH']}` },
    },
  );
  expect(stdout + stderr).toContain('neck.ground is not soldered to anything');
  expect(status).not.toBe(0);
});

test('a shared file that is changed, deleted or renamed brings its users with it', () => {
  const { write } = repository;
  expect(staged().out).toContain('Nothing to check');
  write({ 'parts/house.lug': house.replace('house-pot', 'bench-pot') });
  git('add', '.');
  write({ 'parts/house.lug': house });
  const changed = staged();
  expect(changed.code).toBe(1);
  expect(changed.out).toContain('3 files checked');
  expect(changed.out).toMatch(/^a shop\/no-215\.lug:\d+:\d+: error .*house-pot/m);

  git('reset', '-q', '--hard');
  git('rm', '-q', 'parts/house.lug');
  write({ 'parts/house.lug': house });
  const gone = staged();
  expect(gone.code).toBe(1);
  expect(gone.out).toContain('`house.lug` is in the working folder but not in the index');
  rmSync(join(repository.folder, 'parts/house.lug'));
  expect(staged().out).toContain('there is no file house.lug');
  expect(git('commit', '-m', 'Gone').code).not.toBe(0);

  git('reset', '-q', '--hard');
  git('mv', 'parts/house.lug', 'parts/bench.lug');
  expect(staged().out).toContain('there is no file house.lug');
  write({ 'parts/pots.lug': 'use "bench.lug"\n' });
  expect(staged().code).toBe(1);
  git('add', '.');
  expect(staged()).toMatchObject({ code: 0, err: '' });
  expect(git('commit', '-m', 'Renamed').code).toBe(0);
});

test('what is only in the working folder has no part in it', () => {
  repository.write({ 'a shop/draft.lug': broken, [circuit]: broken, 'parts/house.lug': null });
  expect(staged()).toMatchObject({ code: 0, out: 'Nothing to check: no circuit is changed by what is staged.\n' });
  // Announced by git, but in no commit yet.
  git('add', '-N', 'a shop/draft.lug');
  expect(staged().out).toContain('Nothing to check');
});

test('operands limit what is checked, from any folder; ignore files of the index count', () => {
  repository.write({ [circuit]: broken, 'other/no-216.lug': broken, 'other/kept/no-217.lug': broken });
  git('add', '.');
  expect(staged(['other']).out).toContain('2 files checked');
  expect(staged(['.'], 'other').out).toMatch(/^no-216\.lug:/m);
  expect(staged([], 'other').out).toMatch(/^\.\.\/a shop\/no 214\.lug:/m);
  repository.write({ 'other/.lugignore': 'kept\n' });
  expect(staged(['other']).out).toContain('2 files checked');
  git('add', '.');
  expect(staged(['other']).out).toContain('1 file checked');
  expect(staged(['other/kept/no-217.lug']).out).toContain('1 file checked');
  expect(staged(['nonesuch'])).toMatchObject({ code: 2 });
  expect(staged(['..']).err).toContain('outside the repository');
});

test('formats, baselines and strictness as without it', () => {
  repository.write({ [circuit]: broken });
  inProcess(['check', '--write-baseline', 'known.json', 'a shop'], repository.folder);
  git('add', circuit);
  repository.write({ [circuit]: clean });
  const parsed = JSON.parse(staged(['--format', 'json']).out) as { files: { path: string; findings: unknown[] }[] };
  expect(parsed.files.map(({ path }) => path)).toEqual([circuit]);
  expect(parsed.files[0]?.findings.length).toBeGreaterThan(0);
  expect(staged(['--baseline', 'known.json']).code).toBe(0);
  expect(staged(['--write-baseline', 'all.json']).code).toBe(2);
  expect(lugwork(['check', '--staged', '-'], repository.folder, {}, { input: clean }).code).toBe(2);
});

test('an unresolved conflict and a folder without repository can’t be checked', () => {
  const { commit, write } = repository;
  git('checkout', '-q', '-b', 'other');
  commit('Theirs', { [circuit]: clean.replace('250k', '300k') });
  git('checkout', '-q', 'main');
  commit('Ours', { [circuit]: clean.replace('250k', '500k') });
  git('merge', 'other');
  write({ [circuit]: clean });
  const { code, err } = staged();
  expect(code).toBe(2);
  expect(err).toContain('merge conflict that is not resolved');
  expect(lugwork(['check', '--staged'], '/').code).toBe(2);
});
