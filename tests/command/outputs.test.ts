/** Where a command may write: never onto what it has read, onto a circuit only with --force, straight into pipes and streams. */
import { execFileSync } from 'node:child_process';
import { linkSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { commands } from '../../server/command/commands/index.js';
import { inProcess, inProcessAsync } from '../harness/in-process.js';
import { folderWith, lugworkIn } from '../harness/process.js';
import { clean } from './circuits.js';

/** One call of each command that writes a file, up to the file's name. */
const writers: Readonly<Record<string, readonly string[]>> = {
  check: ['a.lug', '--write-baseline'],
  draw: ['a.lug', '-o'],
  sheet: ['a.lug', '--no-drawing', '--format', 'html', '-o'],
  compare: ['b.lug', 'a.lug', '-o'],
  circuit: ['a.lug', '-o'],
  page: ['a.lug', '-o'],
};
/** Those that read no circuit: what they write over is tried in their own tests. */
const others = ['fit', 'import', 'new'];
const user = `use "used.lug"\n${clean}`;
const used = 'type mine : resistor { takes resistance 1k }\n';
const folder = (): string => folderWith({ 'a.lug': user, 'used.lug': used, 'b.lug': '', 'other.lug': clean, 'known.json': '{}' });

test('every command that writes a file is among them, and has --force', () => {
  const found = commands.filter(({ options }) => options.some(({ name }) => name === 'output' || name === 'write-baseline'));
  expect(found.map(({ name }) => name).sort()).toEqual([...Object.keys(writers), ...others].sort());
  for (const { options } of found) expect(options.map(({ name }) => name)).toContain('force');
});

describe.each(Object.keys(writers))('lugwork %s', (name) => {
  const into = (at: string, output: string, ...more: string[]) => inProcessAsync([name, ...writers[name]!, output, ...more], at);

  test('does not write onto a file that was read, by whatever name, and not with --force', async () => {
    const at = folder();
    symlinkSync('a.lug', join(at, 'link'));
    linkSync(join(at, 'a.lug'), join(at, 'second'));
    for (const output of ['a.lug', './a.lug', 'link', 'second', 'used.lug']) {
      const { code, out, err } = await into(at, output, '--force');
      expect({ output, code, out, err }).toEqual({
        output,
        code: 2,
        out: '',
        err: `lugwork: ${output} is one of the input files, and writing would destroy it; name another file\n`,
      });
    }
    expect(readFileSync(join(at, 'a.lug'), 'utf8')).toBe(user);
    expect(readFileSync(join(at, 'used.lug'), 'utf8')).toBe(used);
  });

  test('writes onto another circuit only with --force', async () => {
    const at = folder();
    symlinkSync('other.lug', join(at, 'link'));
    for (const output of ['other.lug', 'link']) {
      expect(await into(at, output)).toMatchObject({
        code: 2,
        err: `lugwork: ${output} is a circuit; use --force to overwrite it\n`,
      });
    }
    expect(readFileSync(join(at, 'other.lug'), 'utf8')).toBe(clean);
    expect((await into(at, 'other.lug', '--force')).code).toBe(0);
    expect(readFileSync(join(at, 'other.lug'), 'utf8')).not.toBe(clean);
  });
});

describe('a place where nothing can be written', () => {
  test.each([
    ['no-folder/a.json', 'no-folder/a.json can’t be written: its folder does not exist'],
    ['.', '. is a folder; name a file in it'],
    ['new/', 'new/ is a folder; name a file in it'],
    ['', "--output needs the name of a file, and was given ''"],
    ['new.lug', 'new.lug would contain JSON, not a circuit; choose another name, or use --force'],
    ['new.png', 'new.png would contain JSON, not PNG; choose another name, or use --force'],
    ['/dev/fd/99', '/dev/fd/99 can’t be written: it is not open'],
    ['/dev/full', '/dev/full can’t be written: the disk is full'],
  ])('%s', (output, message) => {
    expect(inProcess(['circuit', 'a.lug', '-o', output], folder())).toEqual({ code: 2, out: '', err: `lugwork: ${message}\n` });
  });
});

describe('what is no file gets the text as it is', () => {
  const whole = inProcess(['circuit', '--schema']).out;
  test.each([
    ['the standard output', 'lugwork circuit --schema -o /dev/stdout'],
    ['the same in a pipe', 'lugwork circuit --schema -o /dev/stdout | cat'],
    ['the same into a file that is longer', 'echo first > f; lugwork circuit --schema -o /dev/fd/1 >> f; tail -n +2 f'],
    ['an open stream', 'lugwork circuit --schema -o /dev/fd/3 3>&1 >&2'],
    ['a pipe of the shell', 'lugwork circuit --schema -o >(cat > f); sleep 1; cat f'],
    ['a pipe with a name', 'mkfifo p; cat p > f & lugwork circuit --schema -o p; wait; cat f'],
  ])('%s', (_, script) => {
    expect(lugworkIn(script, folderWith({}))).toEqual({ code: 0, out: whole, err: '' });
  });
  test('/dev/null', () => {
    expect(inProcess(['circuit', '--schema', '-o', '/dev/null'])).toEqual({ code: 0, out: '', err: '' });
    expect(execFileSync('stat', ['-c', '%F', '/dev/null'], { encoding: 'utf8' })).toBe('character special file\n');
  });
  test('a baseline on the standard output is not mixed with the summary', () => {
    const { code, out, err } = inProcess(['check', 'a.lug', '--write-baseline', '/dev/stdout'], folder());
    expect([code, (JSON.parse(out) as { version: number }).version]).toEqual([0, 2]);
    expect(err).toMatch(/^\d+ findings? of 1 file written to \/dev\/stdout\n$/);
  });
});
