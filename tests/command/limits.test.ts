/** What the command does not read, and says so: what is no file, what is too large, what is outside the project. */
import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { folderWith, lugwork, plainUser } from '../harness/process.js';

let folder: string;
const text = 'part a : resistor 1k\n';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lug-limits-'));
  mkdirSync(join(folder, 'project'));
  writeFileSync(join(folder, 'outside.lug'), 'type mine : resistor { takes resistance 1k }\n');
  writeFileSync(join(folder, 'project', 'in.lug'), text);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const at = (name: string): string => join(folder, 'project', name);
const reported = (...words: string[]) => lugwork(words, join(folder, 'project'));
const problems = (name: string, ...words: string[]) => {
  const { out } = reported('check', '--format', 'json', name, ...words);
  const { files } = JSON.parse(out) as { files: { findings: { rule: string; message: string }[] }[] };
  return files[0]!.findings.filter(({ rule }) => rule === 'use' || rule === 'syntax').map(({ message }) => message);
};

describe('files', () => {
  test('a pipe', () => {
    execFileSync('mkfifo', [at('pipe.lug')]);
    expect(reported('check', 'pipe.lug')).toMatchObject({
      code: 2,
      err: 'lugwork: pipe.lug: this is a pipe, not a file; `lugwork check -` reads from a pipe\n',
    });
    rmSync(at('pipe.lug'));
  });
  test('a device', () => {
    expect(reported('check', '/dev/zero')).toMatchObject({ code: 2, err: 'lugwork: /dev/zero: this is a device, not a file\n' });
  });
  test.each([
    ['huge.lug', Buffer.alloc(5_000_000, 32), 'this file has 5,000,000 bytes; the limit is 4,000,000'],
    ['barely-huge.lug', Buffer.alloc(4_000_001, 32), 'this file has 4,000,001 bytes; the limit is 4,000,000'],
    ['binary.lug', Buffer.from([112, 0, 1, 2]), 'this file contains bytes that are not text'],
    ['wide.lug', Buffer.from('\uFEFFpart', 'utf16le'), 'this file is not UTF-8 text but UTF-16; save it as UTF-8'],
    ['latin.lug', Buffer.from([0xe9, 0x20]), 'this file is not UTF-8 text; save it as UTF-8'],
  ])('%s', (name, bytes, why) => {
    writeFileSync(at(name), bytes);
    expect(reported('check', name)).toMatchObject({ code: 2, err: `lugwork: ${name}: ${why}\n` });
    rmSync(at(name));
  });
  test('a mark at the beginning is no part of the text', () => {
    writeFileSync(at('mark.lug'), `\uFEFF${text}`);
    expect(problems('mark.lug')).toEqual([]);
  });
  test('a text of more than a million characters', () => {
    writeFileSync(at('long.lug'), '// x\n'.repeat(210_000));
    expect(problems('long.lug')[0]).toMatch(/1050000 characters long; the limit is 1000000/);
    rmSync(at('long.lug'));
  });
  test('links that lead round in a circle', () => {
    mkdirSync(at('loop'));
    symlinkSync('..', at('loop/up'));
    symlinkSync('self.lug', at('loop/self.lug'));
    expect(reported('check', 'loop').err).toContain('loop/self.lug: the target of this link does not exist');
    rmSync(at('loop'), { recursive: true });
  });
});

describe('use', () => {
  const outside = '`../outside.lug` is outside the project';
  test('does not leave the folder of the file', () => {
    writeFileSync(at('out.lug'), `use "../outside.lug"\n${text}`);
    expect(problems('out.lug')[0]).toContain(outside);
  });
  test('nor by a link', () => {
    symlinkSync('../outside.lug', at('linked.lug'));
    writeFileSync(at('by-link.lug'), `use "linked.lug"\n${text}`);
    expect(problems('by-link.lug')[0]).toContain('`linked.lug` is outside the project');
  });
  test('but where it is let out', () => {
    expect(problems('out.lug', '--outside')).toEqual([]);
  });
  test('or where both lie below the folder in which it runs, or in one repository', () => {
    expect(lugwork(['check', 'project/out.lug'], folder).out).not.toContain('is outside');
    mkdirSync(join(folder, '.git'));
    expect(problems('out.lug')).toEqual([]);
    rmSync(join(folder, '.git'), { recursive: true });
  });
  test.each(['/dev/zero.lug', 'https://x.example/a.lug', 'file:///a.lug', '..\\a.lug'])('takes no %s', (path) => {
    writeFileSync(at('odd.lug'), `use "${path.replaceAll('\\', '\\\\')}"\n${text}`);
    expect(problems('odd.lug')[0]).toContain('is not a path to another file');
  });
  test('reads no folder', () => {
    mkdirSync(at('folder.lug'));
    writeFileSync(at('odd.lug'), `use "folder.lug"\n${text}`);
    expect(problems('odd.lug')).toEqual(['`folder.lug` is not read: this is a folder, not a file']);
    rmSync(at('folder.lug'), { recursive: true });
  });
  // The one who may do anything may read it.
  test('reads no file that is locked, and says so', () => {
    const locked = folderWith({ 'locked.lug': text, 'odd.lug': `use "locked.lug"\n${text}` });
    chmodSync(join(locked, 'locked.lug'), 0o000);
    chmodSync(locked, 0o755);
    const why = 'this file can’t be read (its permissions do not allow it)';
    const { out } = lugwork(['check', '--format', 'github', 'odd.lug'], locked, {}, plainUser);
    expect(out).toContain(`::\`locked.lug\` is not read: ${why}\n`);
    expect(lugwork(['check', 'locked.lug'], locked, {}, plainUser)).toMatchObject({
      code: 2,
      err: `lugwork: locked.lug: ${why}\n`,
    });
  });
  test('reads no pipe', () => {
    execFileSync('mkfifo', [at('pipe.lug')]);
    writeFileSync(at('odd.lug'), `use "pipe.lug"\n${text}`);
    expect(problems('odd.lug')).toEqual(['`pipe.lug` is not read: this is a pipe, not a file']);
    rmSync(at('pipe.lug'));
  });
});
