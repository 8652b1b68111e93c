/** How a file is written: all of it or nothing, through links, with its permissions, and with a word where it cannot be. */
import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  existsSync,
  linkSync,
  lstatSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { moveFile, nameWhileWritten, replaceFile } from '../../server/command/output/write-file.js';
import { folderWith, lugwork, lugworkIn, plainUser } from '../harness/process.js';
import { clean } from './circuits.js';

const untidy = `instrument   "Alder Lane no. 3"\n\n${'part a:pot   250k // as bought\n'.repeat(1200)}`;
const leftOvers = (folder: string): string[] => readdirSync(folder).filter((name) => name.endsWith('.tmp'));

/** Blocks of 512 or 1,024 bytes (the shell's choice); either way less than what is to be written. */
const withLimit = (words: string, folder: string) => lugworkIn(`ulimit -f 8; lugwork ${words}`, folder);

describe('a disk that takes only a part', () => {
  test('format leaves the old text whole, says so and does not count the file', () => {
    const folder = folderWith({ 'a.lug': untidy });
    const { code, out, err } = withLimit('format a.lug', folder);
    expect([code, out]).toEqual([2, '1 file, 0 changed\n']);
    expect(err).toBe('lugwork: a.lug: this file can’t be written: it would exceed the largest file size allowed here\n');
    expect(readFileSync(join(folder, 'a.lug'), 'utf8')).toBe(untidy);
    expect(leftOvers(folder)).toEqual([]);
  });

  test.each([
    ['circuit a.lug -o kept.json', 'kept.json'],
    ['draw a.lug -o kept.svg', 'kept.svg'],
    ['sheet a.lug -o kept.html', 'kept.html'],
    ['compare empty.lug a.lug --format json -o kept.json', 'kept.json'],
    ['check many --write-baseline kept.json', 'kept.json'],
  ])('%s', (words, kept) => {
    const many = Object.fromEntries(Array.from({ length: 90 }, (_, i) => [`many/${i}.lug`, 'part a : nothing\n']));
    const folder = folderWith({ ...many, 'a.lug': clean, 'empty.lug': '', [kept]: 'as it was' });
    const { code, err } = withLimit(words, folder);
    expect(err).toBe(`lugwork: ${kept} can’t be written: it would exceed the largest file size allowed here\n`);
    expect([code, readFileSync(join(folder, kept), 'utf8'), leftOvers(folder)]).toEqual([2, 'as it was', []]);
  });

  // Only the superuser can mount, and not in every container.
  test('a disk that is really full', (context) => {
    const folder = folderWith({});
    if (spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=128k', 'none', folder]).status !== 0) return context.skip();
    try {
      writeFileSync(join(folder, 'a.lug'), untidy);
      writeFileSync(join(folder, 'rest'), Buffer.alloc(60_000));
      const { code, err } = lugwork(['format', 'a.lug'], folder);
      expect([code, err]).toEqual([2, 'lugwork: a.lug: this file can’t be written: the disk is full\n']);
      expect(readFileSync(join(folder, 'a.lug'), 'utf8')).toBe(untidy);
      expect(leftOvers(folder)).toEqual([]);
    } finally {
      spawnSync('umount', [folder]);
    }
  });
});

describe('what a file is besides its text', () => {
  test('its permissions stay', () => {
    const folder = folderWith({ 'a.lug': untidy });
    chmodSync(join(folder, 'a.lug'), 0o640);
    expect(lugwork(['format', 'a.lug'], folder).code).toBe(0);
    expect(statSync(join(folder, 'a.lug')).mode & 0o7777).toBe(0o640);
  });

  test.runIf(process.getuid?.() === 0)('its owner and group stay', () => {
    const folder = folderWith({ 'a.lug': untidy });
    chownSync(join(folder, 'a.lug'), 65534, 65534);
    lugwork(['format', 'a.lug'], folder);
    expect(statSync(join(folder, 'a.lug'))).toMatchObject({ uid: 65534, gid: 65534 });
  });

  test('a new file has what the system gives to new files', () => {
    const folder = folderWith({ 'a.lug': clean });
    lugwork(['circuit', 'a.lug', '-o', 'new.json'], folder);
    writeFileSync(join(folder, 'plain'), '');
    expect(statSync(join(folder, 'new.json')).mode).toBe(statSync(join(folder, 'plain')).mode);
  });

  test('a link stays one, and what it leads to gets the text', () => {
    const folder = folderWith({ 'own/a.lug': untidy });
    symlinkSync('own/a.lug', join(folder, 'link.lug'));
    expect(lugwork(['format', 'link.lug'], folder).code).toBe(0);
    expect(lstatSync(join(folder, 'link.lug')).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(folder, 'own/a.lug'), 'utf8')).toContain('part a : pot 250k');
  });

  test('a link that leads nowhere is no place to write to', () => {
    const folder = folderWith({ 'a.lug': clean });
    symlinkSync('gone.json', join(folder, 'link.json'));
    const { code, err } = lugwork(['circuit', 'a.lug', '-o', 'link.json'], folder);
    expect([code, err]).toEqual([2, 'lugwork: link.json can’t be written: the target of this link does not exist\n']);
  });

  test('its further names (hard links) keep the old text, and that is said', () => {
    const folder = folderWith({ 'a.lug': untidy });
    linkSync(join(folder, 'a.lug'), join(folder, 'backup'));
    const { code, err } = lugwork(['format', 'a.lug'], folder);
    expect([code, err]).toEqual([0, 'lugwork: a.lug: the file has other names (hard links); they keep the old text\n']);
    expect(readFileSync(join(folder, 'backup'), 'utf8')).toBe(untidy);
  });

  test('a file that may only be read is not replaced, though its folder would allow it', () => {
    const folder = folderWith({ 'a.lug': untidy });
    chmodSync(folder, 0o777);
    chmodSync(join(folder, 'a.lug'), 0o444);
    const { code, out, err } = lugwork(['format', 'a.lug'], folder, {}, plainUser);
    expect([code, out]).toEqual([2, '1 file, 0 changed\n']);
    expect(err).toBe('lugwork: a.lug: this file can’t be written: its permissions do not allow it\n');
    expect(readFileSync(join(folder, 'a.lug'), 'utf8')).toBe(untidy);
  });

  test('a folder that takes no new file is named as the reason', () => {
    const folder = folderWith({ 'a.lug': untidy });
    chmodSync(join(folder, 'a.lug'), 0o666);
    chmodSync(folder, 0o555);
    const { code, err } = lugwork(['format', 'a.lug'], folder, {}, plainUser);
    chmodSync(folder, 0o755);
    expect([code, err]).toEqual([
      2,
      'lugwork: a.lug: this file can’t be written: the permissions of its folder do not allow a new file\n',
    ]);
  });

  test('a name as long as names may be', () => {
    const name = `${'n'.repeat(251)}.lug`;
    const folder = folderWith({ [name]: untidy });
    expect(lugwork(['format', name], folder).code).toBe(0);
  });
});

describe('what a killed process left behind', () => {
  test('is not in the way, and is removed once it is old', () => {
    const folder = folderWith({ 'a.lug': 'old' });
    const path = join(folder, 'a.lug');
    const name = basename(nameWhileWritten(path));
    writeFileSync(join(folder, name), 'half');
    expect(replaceFile(path, 'new')).toEqual({});
    expect([readFileSync(path, 'utf8'), readdirSync(folder).sort()]).toEqual(['new', [name, 'a.lug']]);
    const hourAgo = Date.now() / 1000 - 3600;
    utimesSync(join(folder, name), hourAgo, hourAgo);
    expect(replaceFile(path, 'newer')).toEqual({});
    expect([readFileSync(path, 'utf8'), readdirSync(folder)]).toEqual(['newer', ['a.lug']]);
    expect(existsSync(join(folder, name))).toBe(false);
  });

  test('a link of that name is not written through', () => {
    const folder = folderWith({ 'a.lug': 'old', prey: 'whole' });
    const path = join(folder, 'a.lug');
    symlinkSync('prey', nameWhileWritten(path));
    expect(replaceFile(path, 'new')).toEqual({});
    expect([readFileSync(path, 'utf8'), readFileSync(join(folder, 'prey'), 'utf8')]).toEqual(['new', 'whole']);
  });
});

describe('moving the new file to its place', () => {
  const failing = (times: number, code: string) => {
    let calls = 0;
    const rename = (): void => {
      calls += 1;
      if (calls <= times) throw Object.assign(new Error(code), { code });
    };
    return { rename, calls: () => calls };
  };

  test.each(['EPERM', 'EACCES', 'EBUSY'])(
    'is tried again while another program holds the file (%s, as Windows has it)',
    (code) => {
      const { rename, calls } = failing(2, code);
      moveFile('a', 'b', rename, [1, 1, 1]);
      expect(calls()).toBe(3);
    },
  );

  test('is given up after the last wait', () => {
    const { rename, calls } = failing(9, 'EBUSY');
    expect(() => moveFile('a', 'b', rename, [1, 1])).toThrow('EBUSY');
    expect(calls()).toBe(3);
  });

  test('is not tried again for any other reason', () => {
    const { rename, calls } = failing(1, 'ENOSPC');
    expect(() => moveFile('a', 'b', rename, [1, 1])).toThrow('ENOSPC');
    expect(calls()).toBe(1);
  });
});
