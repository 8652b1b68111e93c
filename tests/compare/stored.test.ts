/** Texts that git lays aside for an external diff or a textconv: the files that they use are read as they were beside them. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { root } from '../harness/checkout.js';
import { lugwork } from '../harness/process.js';
import { repositoryWith, type Repository } from '../harness/repository.js';
import { base } from './cases.js';

const path = 'a shop/no-218.lug';
const house = (name: string, ohm: string): string =>
  `/** A pot. */\ntype ${name} : pot { takes resistance ${ohm}, taper audio|linear }\n`;
const circuit = (pot: string): string => `use "../parts/house.lug"\n${base('two').replace('pot 500k audio', pot)}`;
const call = `${process.execPath} ${join(root, 'dist/lugwork.mjs')} compare`;
const ways = { external: ['-c', `diff.lug.command=${call}`], textconv: ['-c', `diff.lug.textconv=${call} --textconv`] };

let repository: Repository;
let commits: readonly string[];

beforeEach(() => {
  repository = repositoryWith({
    [path]: circuit('house-pot'),
    'parts/house.lug': house('house-pot', '500k'),
    '.gitattributes': '*.lug diff=lug\n',
  });
  const { commit, git } = repository;
  // The circuit and its part change their words together: neither version of the one reads with the other version of the other.
  commits = [
    git('rev-parse', 'HEAD').trim(),
    commit('Other words', { [path]: circuit('bench-pot'), 'parts/house.lug': house('bench-pot', '250k') }),
    commit('And again', { [path]: circuit('shop-pot'), 'parts/house.lug': house('shop-pot', '100k') }),
  ];
});

/** `git WORDS`, what it prints and what the command says on stderr. */
function diff(way: keyof typeof ways, ...words: readonly string[]): string {
  const { stdout, stderr, status } = spawnSync('git', [...ways[way], ...words], { cwd: repository.folder, encoding: 'utf8' });
  expect(status).toBe(0);
  return stdout + stderr;
}

const short = (commit = ''): string => repository.git('rev-parse', '--short', commit).trim();

describe('external diff', () => {
  test('between commits, neither version gets errors from the other', () => {
    const out = diff('external', 'diff', commits[0] ?? '', commits[1] ?? '');
    expect(out).not.toMatch(/errors? in its text|unknown/);
    expect(out).toContain('volume: resistance 500 kΩ becomes 250 kΩ');
    expect(out).toContain(`old version: parts/house.lug is read as commit ${short(commits[0])} has it`);
    expect(out).toContain(`new version: parts/house.lug is read as commit ${short(commits[1])} has it`);
  });

  test('git log -p, commit by commit', () => {
    const out = diff('external', 'log', '-p', '--ext-diff', '--', path);
    expect(out).not.toMatch(/errors? in its text|unknown/);
    expect(out).toContain('volume: resistance 500 kΩ becomes 250 kΩ');
    expect(out).toContain('volume: resistance 250 kΩ becomes 100 kΩ');
  });

  test('what is staged is read with what is staged beside it', () => {
    const { write, git } = repository;
    write({ [path]: circuit('fine-pot'), 'parts/house.lug': house('fine-pot', '1M') });
    git('add', '.');
    write({ [path]: circuit('last-pot'), 'parts/house.lug': house('last-pot', '300k') });
    const staged = diff('external', 'diff', '--cached');
    expect(staged).toContain('volume: resistance 100 kΩ becomes 1 MΩ');
    expect(staged).toContain('new version: parts/house.lug is read as the index has it');
    const unstaged = diff('external', 'diff');
    expect(unstaged).toContain('volume: resistance 1 MΩ becomes 300 kΩ');
    expect(unstaged).not.toMatch(/errors? in its text|unknown/);
  });

  test('a version on another branch alone, and a tip before its history', () => {
    const { git, commit } = repository;
    git('checkout', '-q', '-b', 'other', commits[0] ?? '');
    commit('Elsewhere', { [path]: circuit('far-pot'), 'parts/house.lug': house('far-pot', '470k') });
    commit('The part alone', { 'parts/house.lug': house('far-pot', '480k') });
    git('checkout', '-q', 'main');
    const out = diff('external', 'diff', 'other', 'main', '--', path);
    expect(out).toContain('volume: resistance 480 kΩ becomes 100 kΩ');
    expect(out).toContain(`old version: parts/house.lug is read as commit ${short('other')} has it`);
  });

  test('a text that is in no commit, and no git at all: the working folder, and it says so', () => {
    const { folder, git } = repository;
    const words = ['compare', path, join(folder, path), 'f'.repeat(40), '100644', join(folder, path), '0'.repeat(40), '100644'];
    const unknown = lugwork(words, folder);
    expect(unknown.out).toContain(
      'old version: used files are read from the working folder, because no commit was found that has this text',
    );
    expect(unknown.out).not.toContain('new version:');
    const without = lugwork(words, folder, { PATH: '/nonexistent' });
    expect(without.code).toBe(0);
    expect(without.out).toContain('because their own version is not known: git can’t be run');
    expect(git('status', '--porcelain')).toBe('');
  });

  test('a circuit that uses no file has nothing to say of it', () => {
    const { commit } = repository;
    commit('A separate part', { 'no-219.lug': base('two') });
    commit('Changed', { 'no-219.lug': base('two').replace('pot 500k', 'pot 250k') });
    commit('Changed again', { 'no-219.lug': base('two').replace('pot 500k', 'pot 100k') });
    const out = diff('external', 'diff', 'HEAD~2', 'HEAD~1');
    expect(out).toContain('500 kΩ becomes 250 kΩ');
    expect(out).not.toContain('version:');
  });
});

// The meter reads the bridge pickup, 7.5 kΩ, in parallel with the pot: 7.39 kΩ with 500 kΩ, 7.28 kΩ with 250 kΩ, 6.98 kΩ with 100 kΩ.
describe('textconv', () => {
  test('git log -p shows facts of each version, with its part', () => {
    // Another file of that name, so that the name alone says nothing.
    repository.commit('Another of that name', { 'b/no-218.lug': base('one') });
    const out = diff('textconv', 'log', '-p', '--', path);
    expect(out).toMatch(/^-position selector "bridge": .* reads 7\.39 kΩ/m);
    expect(out).toMatch(/^\+position selector "bridge": .* reads 7\.28 kΩ/m);
    expect(out).toMatch(/^\+position selector "bridge": .* reads 6\.98 kΩ/m);
    expect(out).toContain(`note: parts/house.lug is read as commit ${short(commits[0])} has it`);
  });

  test('a file that is only in commits', () => {
    repository.commit('Gone', { [path]: null });
    const out = diff('textconv', 'show', commits[1] ?? '', '--', path);
    expect(out).toMatch(/^-position selector "bridge": .* reads 7\.39 kΩ/m);
    expect(out).toMatch(/^\+position selector "bridge": .* reads 7\.28 kΩ/m);
  });
});
