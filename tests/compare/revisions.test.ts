/** What commits and the working folder hold and in what they differ, against git’s own words; `A...B` as git means it. */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { CannotRun } from '../../server/command/command.js';
import { changedFiles, filesAt, rangeOf, shortName, topLevel } from '../../server/command/reading/git.js';
import { inProcessAsync } from '../harness/in-process.js';
import { repositoryWith } from '../harness/repository.js';
import { base } from './cases.js';

const path = 'a shop/no-42.lug';
const { folder, git, commit, write } = repositoryWith({
  [path]: base('two'),
  'a shop/old/no-41.lug': base('one'),
  'a shop/old/gone.lug': '// nothing\n',
  'parts/house.lug': '/** The house pot. */\ntype house-pot : pot { takes resistance 500k }\n',
  '.gitignore': 'draft.lug\n',
});
const shop = join(folder, 'a shop');
const start = git('rev-parse', 'HEAD').trim();
git('checkout', '-q', '-b', 'branch');
const end = commit('On the branch', {
  [path]: base('two').replace('wire neck.hot to selector.B3', 'wire neck.hot to selector.A3'),
  'a shop/old/no-41.lug': null,
  'a shop/old/gone.lug': null,
  'a shop/größe 41.lug': base('one'),
  'parts/house.lug': null,
  'a shop/house.lug': '/** The house pot. */\ntype house-pot : pot { takes resistance 500k }\n',
});
git('checkout', '-q', 'main');
const onMain = commit('On main', { [path]: base('two').replace('pot 500k', 'pot 250k') });
git('checkout', '-q', '--orphan', 'unrelated');
git('commit', '-q', '-m', 'Another history');
git('checkout', '-q', 'branch');

test('A..B is from commit to commit, A...B from where both part', async () => {
  const two = await inProcessAsync(['compare', '--git', 'main..branch', path], folder);
  expect(two.out).toContain('volume: resistance 250 kΩ becomes 500 kΩ');
  const three = await inProcessAsync(['compare', '--git', 'main...branch', path], folder);
  expect(three.out).not.toContain('resistance');
  expect(three.out).toContain('> wire neck.hot to selector.B3: the end at selector.B3 moves to selector.A3');
  const short = git('rev-parse', '--short', git('merge-base', 'main', 'branch').trim()).trim();
  expect(three.out.split('\n')[0]).toBe(`${path}, ${short} (merge base of main and branch) → branch: electrical change`);
  // An end that is left out is HEAD, which is the branch.
  expect((await inProcessAsync(['compare', '--git', 'main...', path], folder)).out).toContain('moves to selector.A3');
  expect((await inProcessAsync(['compare', '--git', '...main', path], folder)).out).toContain('500 kΩ becomes 250 kΩ');
});

test('histories that share no commit have no merge base; three commits are one too many', async () => {
  const { code, err } = await inProcessAsync(['compare', '--git', 'main...unrelated', path], folder);
  expect(code).toBe(2);
  expect(err).toContain('main and unrelated have no merge base, because their histories share no commit');
  expect((await inProcessAsync(['compare', '--git', 'main..branch..main', path], folder)).err).toContain('more than two commits');
  expect(() => rangeOf('main...nonesuch', folder)).toThrow(CannotRun);
});

test('a circuit that went with its folder is compared with nothing', async () => {
  const { code, out } = await inProcessAsync(['compare', '--git', 'main', 'a shop/old/no-41.lug'], folder);
  expect(code).toBe(0);
  expect(out).toContain('part pickup');
});

test('the files that differ, as seen from a folder, with renames', () => {
  expect(changedFiles(start, end, folder)).toEqual([
    { kind: 'renamed', before: 'a shop/old/no-41.lug', after: 'a shop/größe 41.lug' },
    { kind: 'renamed', before: 'parts/house.lug', after: 'a shop/house.lug' },
    { kind: 'modified', before: path, after: path },
    { kind: 'deleted', before: 'a shop/old/gone.lug' },
  ]);
  // What came from elsewhere is new to the folder.
  expect(changedFiles(start, end, shop).find(({ after }) => after === 'house.lug')).toEqual({
    kind: 'added',
    after: 'house.lug',
  });
  // Both folders are on the disk no more.
  expect(changedFiles(start, end, join(shop, 'old')).map(({ kind, before }) => [kind, before])).toEqual([
    ['deleted', 'gone.lug'],
    ['deleted', 'no-41.lug'],
  ]);
  expect(changedFiles(start, end, join(folder, 'parts'))).toEqual([{ kind: 'deleted', before: 'house.lug' }]);
});

test('in the working folder, circuits that git does not track yet count, ignored ones do not', () => {
  write({ 'a shop/new one.lug': base('one'), 'a shop/draft.lug': base('one'), 'a shop/notes.txt': 'new\n', [path]: base('two') });
  expect(changedFiles(end, undefined, shop)).toEqual([
    { kind: 'added', after: 'new one.lug' },
    { kind: 'modified', before: 'no-42.lug', after: 'no-42.lug' },
  ]);
  git('checkout', '-q', '.');
  write({ 'a shop/new one.lug': null, 'a shop/draft.lug': null, 'a shop/notes.txt': null });
  expect(changedFiles(end, undefined, shop)).toEqual([]);
});

test('the files of a commit, the names of a commit and of the repository’s root', () => {
  expect(filesAt(start, folder)).toEqual(git('ls-tree', '-r', '-z', '--name-only', start).split('\0').slice(0, -1));
  expect(filesAt(start, shop)).toEqual(['no-42.lug', 'old/gone.lug', 'old/no-41.lug']);
  expect(filesAt(end, shop)).toEqual(['größe 41.lug', 'house.lug', 'no-42.lug']);
  expect(filesAt(start, join(shop, 'old'))).toEqual(['gone.lug', 'no-41.lug']);
  expect(filesAt(end, join(shop, 'old'))).toEqual([]);
  expect(shortName(onMain, shop)).toBe(git('rev-parse', '--short', onMain).trim());
  expect(topLevel(shop)).toBe(git('rev-parse', '--show-toplevel').trim());
  expect(() => topLevel('/')).toThrow(CannotRun);
});
