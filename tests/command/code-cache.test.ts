/** What the command keeps between starts: it saves time, and neither damage nor another user can make anything else of it. */
import { chmodSync, mkdirSync, readdirSync, readFileSync, statSync, truncateSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { cacheFolder } from '../../server/command/code-cache.js';
import { folderWith, lugwork } from '../harness/process.js';

const circuit = 'part out : mono-jack\npart neck : single-coil\nwire neck.hot to out.tip\nwire neck.ground to out.sleeve\n';

/** A folder with a circuit, and what `lugwork check` keeps for it. */
function begin() {
  const folder = folderWith({ 'a.lug': circuit });
  const kept = join(folder, 'kept');
  const check = (words: readonly string[] = ['check', 'a.lug'], cache = kept) => lugwork(words, folder, { LUGWORK_CACHE: cache });
  const files = (): string[] => {
    const [build, ...others] = readdirSync(kept);
    expect(others).toEqual([]);
    return readdirSync(join(kept, build!)).map((name) => join(kept, build!, name));
  };
  return { folder, kept, check, files };
}

describe('compiled code', () => {
  test('is kept at the first start and read at the next', () => {
    const { check, files } = begin();
    const first = check();
    const [file] = files();
    const before = statSync(file!);
    expect(before.mode & 0o777).toBe(0o600);
    expect(check()).toEqual(first);
    expect(statSync(file!).mtimeMs).toBe(before.mtimeMs);
  });

  test.each([
    ['cut short', (file: string) => truncateSync(file, 1000)],
    ['empty', (file: string) => truncateSync(file, 0)],
    [
      'changed in the middle',
      (file: string) => {
        const bytes = readFileSync(file);
        bytes.fill(0x5a, bytes.length >> 1, (bytes.length >> 1) + 500);
        writeFileSync(file, bytes);
      },
    ],
  ])('that was %s is made again', (_, damage) => {
    const { check, files } = begin();
    const first = check();
    const [file] = files();
    const { size } = statSync(file!);
    damage(file!);
    const damaged = readFileSync(file!);
    expect(check()).toEqual(first);
    expect(statSync(file!).size).toBeGreaterThan(size / 2);
    expect(readFileSync(file!).equals(damaged)).toBe(false);
  });

  test.runIf(process.getuid)('in a folder in which others may write is neither read nor written', () => {
    const { check, files } = begin();
    const first = check();
    const [file] = files();
    chmodSync(join(file!, '..'), 0o777);
    writeFileSync(file!, 'planted');
    expect(check()).toEqual(first);
    expect(readFileSync(file!, 'utf8')).toBe('planted');
  });

  test('is not kept of a call that can’t run, nor where LUGWORK_CACHE is empty', () => {
    const { kept, check } = begin();
    expect(check(['check', 'no-such.lug']).code).toBe(2);
    expect(check(['../../check', 'a.lug']).code).toBe(2);
    expect(check(['check', 'a.lug'], '').code).toBe(1);
    expect(() => readdirSync(kept)).toThrow(/ENOENT/);
  });

  test('of a build that nobody started for a month goes, others stay', () => {
    const { kept, check } = begin();
    for (const [name, days] of [
      ['old', 31],
      ['new', 29],
    ] as const) {
      mkdirSync(join(kept, name), { recursive: true });
      const then = Date.now() / 1000 - days * 24 * 3600;
      utimesSync(join(kept, name), then, then);
    }
    check();
    expect(readdirSync(kept).filter((name) => name === 'old' || name === 'new')).toEqual(['new']);
  });
});

test('the folder is the one that the system has for it (XDG Base Directory Specification 0.8; the other systems from memory)', () => {
  expect(cacheFolder({ HOME: '/people/a' }, 'linux')).toBe('/people/a/.cache/lugwork');
  expect(cacheFolder({ HOME: '/people/a', XDG_CACHE_HOME: '/var/a' }, 'linux')).toBe('/var/a/lugwork');
  expect(cacheFolder({ HOME: '/people/a', XDG_CACHE_HOME: 'a' }, 'linux')).toBe('/people/a/.cache/lugwork');
  expect(cacheFolder({ HOME: '/people/a' }, 'darwin')).toBe('/people/a/Library/Caches/lugwork');
  expect(cacheFolder({ HOME: '/x', LOCALAPPDATA: '/AppData/Local' }, 'win32')).toBe('/AppData/Local/lugwork');
  expect(cacheFolder({ HOME: '/people/a', LUGWORK_CACHE: '/fast' }, 'linux')).toBe('/fast');
  expect(cacheFolder({ HOME: '/people/a', LUGWORK_CACHE: '' }, 'linux')).toBeUndefined();
  expect(cacheFolder({ HOME: '' }, 'linux')).toBeUndefined();
});
