/** `blame` in a real repository: renames, shared files, merges, and what is not committed; and `git bisect run` with `check`. */
import { execFileSync } from 'node:child_process';
import { chmodSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { base } from '../compare/cases.js';
import { read, root } from '../harness/checkout.js';
import { inProcess } from '../harness/in-process.js';
import { lugwork } from '../harness/process.js';
import { repositoryWith, type Repository } from '../harness/repository.js';

const path = 'a shop/no-220.lug';
const house = (ohm: string): string => `/** A pot. */\ntype house-pot : pot { takes resistance ${ohm}, taper audio|linear }\n`;
const built = `use "../parts/house.lug"\n${base('two').replace('pot 500k audio', 'house-pot')}`;
const moved = built.replace('wire neck.hot to selector.B3', 'wire neck.hot to selector.A3');

let repository: Repository;

beforeEach(() => {
  repository = repositoryWith({ [path]: built, 'parts/house.lug': house('500k') });
});

function blame(setting: string, file = path, ...words: readonly string[]) {
  return inProcess(['blame', ...words, file, setting], repository.folder);
}

/** The first line: the commit in git's own words. */
const head = (commit: string): string => repository.git('log', '-n1', '--format=%h %as %s', commit).trim();

describe('the commit is found', () => {
  test('a wire concerns the positions that it changes, a shared part all of them, a comment none', () => {
    const { commit } = repository;
    const wire = commit('The neck on the other pole', { [path]: moved });
    const pots = commit('Smaller house pots', { 'parts/house.lug': house('250k') });
    commit('A note', { [path]: `// a note\n${moved}` });
    // 7.5 kΩ in parallel with 500 kΩ is 7.39 kΩ, with 250 kΩ 7.28 kΩ.
    const { code, out } = blame('selector "bridge"');
    expect(code).toBe(0);
    expect(out.split('\n')[0]).toBe(head(pots));
    expect(out).toContain('selector "bridge": reads 7.39 kΩ becomes 7.28 kΩ');
    expect(out).toContain('changed in parts/house.lug');
    commit('As before', { 'parts/house.lug': house('500k') });
    repository.git('reset', '-q', '--hard', wire);
    const both = blame('selector 2').out;
    expect(both.split('\n')[0]).toBe(head(wire));
    expect(both).toContain('sounds parallel(bridge, neck) becomes bridge');
    expect(both).toContain(`changed in ${path}`);
    // The bridge alone was never touched: the file is as it was built.
    expect(blame('selector 1').out).toBe(`${head('HEAD~1')}\n${path}, selector "bridge": ${path} is new in this commit\n`);
  });

  test('under another name, with its parts renamed', () => {
    const { commit, git } = repository;
    const wire = commit('The neck on the other pole', { [path]: moved });
    git('mv', path, 'no-221.lug');
    const here = moved.replace('../parts', 'parts');
    commit('Another name', { 'no-221.lug': here });
    commit('Other words', { 'no-221.lug': here.replaceAll('selector', 'lever').replaceAll('volume', 'loudness') });
    const { out } = blame('lever 2', 'no-221.lug');
    expect(out.split('\n')[0]).toBe(head(wire));
    expect(out).toContain(`${path}, lever "both": sounds parallel(bridge, neck) becomes bridge`);
  });

  test('on the branch that made it, not at the merge; a merge that made it itself', () => {
    const { commit, git } = repository;
    git('checkout', '-q', '-b', 'branch');
    const wire = commit('The neck on the other pole', { [path]: moved });
    git('checkout', '-q', 'main');
    commit('Smaller house pots', { 'parts/house.lug': house('499k') });
    git('merge', '-q', '--no-edit', 'branch');
    expect(blame('selector 2').out.split('\n')[0]).toBe(head(wire));
    git('reset', '-q', '--hard', 'HEAD~1');
    git('merge', '-q', '--no-commit', '--no-ff', 'branch');
    const evil = commit('Merged by hand', { 'parts/house.lug': house('100k') });
    expect(blame('selector 1').out.split('\n')[0]).toBe(head(evil));
  });

  test('not committed yet', () => {
    repository.write({ 'parts/house.lug': house('250k') });
    const { out } = blame('selector 1, volume 10');
    expect(out.split('\n')[0]).toBe('not committed yet');
    expect(out).toContain('reads 7.39 kΩ becomes 7.28 kΩ');
    expect(JSON.parse(blame('selector 1', path, '--format', 'json').out)).toMatchObject({
      commit: null,
      kind: 'changed',
      changed: ['parts/house.lug'],
      heard: { reads: { before: expect.closeTo(7389.2, 0), after: expect.closeTo(7281.6, 0) } },
    });
  });

  test('a control that was not there before', () => {
    const { commit } = repository;
    const shade = commit('A pot more', {
      [path]: built
        .replace('part output', 'part shade : pot 250k audio\npart output')
        .concat('\nsolder shade.3 to volume.3\nsolder shade.1 to volume.case\n'),
    });
    expect(blame('shade 0').out).toContain(`${head(shade)}\n${path}, selector "bridge", shade 0: shade is new here`);
    expect(JSON.parse(blame('shade 0', path, '--format', 'json').out)).toMatchObject({ kind: 'setting-new' });
  });
});

test('what can’t be answered says why', () => {
  const { write, folder } = repository;
  write({ 'no-223.lug': base('two') });
  expect(blame('selector 1', 'no-223.lug')).toMatchObject({ code: 2, err: expect.stringContaining('is in no commit yet') });
  expect(blame('selector 9')).toMatchObject({ code: 2, err: expect.stringContaining('selector') });
  expect(blame('nonesuch 1').code).toBe(2);
  expect(blame('selector 1', path, '--at', 'output.nonesuch').code).toBe(2);
  expect(lugwork(['blame', path, 'selector 1'], folder, { PATH: '/nonexistent' }).err).toContain('git can’t be run');
});

test('git bisect run finds the commit that brought an error, and skips those that can’t be read', () => {
  const { commit, git, folder, write } = repository;
  const sound = git('rev-parse', 'HEAD').trim();
  commit('A note', { [path]: `// a note\n${built}` });
  commit('Not there for a while', { [path]: null });
  commit('There again', { [path]: `// a note\n${built}` });
  const bad = commit('A ground less', { [path]: built.replace(/^wire neck\.ground .*\n/m, '') });
  for (const name of ['one', 'two', 'three']) commit(name, { 'notes.txt': name });
  write({ '.git/bin/lugwork': `#!/bin/sh\nexec "${process.execPath}" "${join(root, 'dist/lugwork.mjs')}" "$@"\n` });
  chmodSync(join(folder, '.git/bin/lugwork'), 0o755);
  // Both lines of the reference, as they are there but for the path.
  const text = read('language/reference-command.md').replaceAll(/\s+/g, ' ');
  const lines = [...text.matchAll(/`(git bisect run [^`]*)`/g)].map(([, one = '']) => one.replaceAll('no-3.lug', `"${path}"`));
  expect(lines).toHaveLength(2);
  for (const run of lines) {
    git('bisect', 'start', 'HEAD', sound);
    const out = execFileSync('sh', ['-c', run], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, PATH: `${join(folder, '.git/bin')}:${process.env['PATH']}` },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    git('bisect', 'reset');
    if (run.includes('125')) expect(out).toContain(`${bad} is the first bad commit`);
    else expect(out).toContain('is the first bad commit');
  }
});
