/** Where the command looks: inside the folder that was named, at files only, and at the standard input where it is asked to. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { commands } from '../../server/command/commands/index.js';
import { inProcess, inProcessAsync } from '../harness/in-process.js';
import { folderWith, lugwork, lugworkIn } from '../harness/process.js';
import { broken, clean } from './circuits.js';

const untidy = 'part a:pot   250k\n';

describe('links in a folder', () => {
  const linked = (): string => {
    const folder = folderWith({ 'in/own.lug': untidy, 'in/deep/far.lug': untidy, 'out/other.lug': untidy, 'single.lug': untidy });
    symlinkSync('../out', join(folder, 'in/folder'));
    symlinkSync('../single.lug', join(folder, 'in/single.lug'));
    symlinkSync('deep', join(folder, 'in/again'));
    symlinkSync('own.lug', join(folder, 'in/name.lug'));
    symlinkSync('.', join(folder, 'in/round'));
    return folder;
  };

  test('format rewrites nothing outside, and says once what it does not follow', () => {
    const folder = linked();
    expect(inProcess(['format', '.'], join(folder, 'in'))).toEqual({
      code: 0,
      out: 'deep/far.lug\nown.lug\n2 files, 2 changed\n',
      err: 'lugwork: links not followed because they lead out of the folder: folder, single.lug\n',
    });
    for (const name of ['out/other.lug', 'single.lug']) expect(readFileSync(join(folder, name), 'utf8')).toBe(untidy);
  });

  test('the same goes for check, and a folder that is named beside it is walked', () => {
    const folder = linked();
    const { out } = inProcess(['check', '--format', 'json', 'in', 'out'], folder);
    const { files } = JSON.parse(out) as { files: { path: string }[] };
    expect(files.map(({ path }) => path)).toEqual(['in/deep/far.lug', 'in/own.lug', 'out/other.lug']);
  });

  test('a link that is named is followed', () => {
    const folder = linked();
    expect(inProcess(['format', 'in/folder', 'in/single.lug'], folder)).toMatchObject({
      code: 0,
      out: 'in/folder/other.lug\nin/single.lug\n2 files, 2 changed\n',
      err: '',
    });
  });
});

describe('an empty argument is no folder', () => {
  test.each(commands.filter(({ name }) => name !== 'circuit').map((command) => [command.name, command] as const))(
    'lugwork %s',
    (name, { operands, arity }) => {
      const folder = folderWith({ 'a.lug': untidy });
      const words = Array.from({ length: Math.max(1, arity[0]) }, () => '');
      expect(inProcess([name, ...words], folder)).toEqual({
        code: 2,
        out: '',
        err: `lugwork: lugwork ${name} was given an empty argument ('') instead of ${operands}\n`,
      });
      expect(readFileSync(join(folder, 'a.lug'), 'utf8')).toBe(untidy);
    },
  );
  test('nor a baseline, nor a command', () => {
    expect(inProcess(['check', 'a.lug', '--baseline', ''])).toMatchObject({
      code: 2,
      err: "lugwork: --baseline needs the name of a file, and was given ''\n",
    });
    expect(inProcess(['']).err).toBe("lugwork: the name of the command is empty (''); `lugwork --help` lists the commands\n");
  });
});

describe('what is no file is not opened', () => {
  test('in a walk: a pipe, a socket, a huge file', async () => {
    const folder = folderWith({ 'f/a.lug': clean, 'f/huge.lug': Buffer.alloc(4_000_001, 32) });
    execFileSync('mkfifo', [join(folder, 'f/pipe.lug')]);
    const server = createServer().listen(join(folder, 'f/socket.lug'));
    await new Promise((resolve) => server.once('listening', resolve));
    const { code, err } = inProcess(['check', 'f'], folder);
    server.close();
    expect(code).toBe(2);
    expect(err.split('\n').slice(0, -1)).toEqual([
      'lugwork: f/huge.lug: this file has 4,000,001 bytes; the limit is 4,000,000',
      'lugwork: f/pipe.lug: this is a pipe, not a file',
      'lugwork: f/socket.lug: this is a socket, not a file',
    ]);
  });

  test('as a .lugignore: the folder is left alone', () => {
    const folder = folderWith({ 'f/a.lug': untidy });
    execFileSync('mkfifo', [join(folder, 'f/.lugignore')]);
    expect(inProcess(['format', 'f'], folder)).toEqual({
      code: 2,
      out: '',
      err: 'lugwork: f/.lugignore: this is a pipe, not a file\n',
    });
    expect(readFileSync(join(folder, 'f/a.lug'), 'utf8')).toBe(untidy);
  });

  test.each([
    ['pipe', 'this is a pipe, not a file'],
    ['/dev/zero', 'this is a device, not a file'],
    ['.', 'this is a folder, not a file'],
    ['huge.json', 'this file has 64,000,001 bytes; the limit is 64,000,000'],
    ['none.json', 'there is no such file; --write-baseline none.json creates one'],
  ])('as a baseline: %s', (name, why) => {
    const folder = folderWith({ 'a.lug': clean, 'huge.json': '' });
    execFileSync('mkfifo', [join(folder, 'pipe')]);
    execFileSync('truncate', ['-s', '64000001', join(folder, 'huge.json')]);
    expect(inProcess(['check', 'a.lug', '--baseline', name], folder)).toMatchObject({
      code: 2,
      err: `lugwork: can’t read the baseline ${name}: ${why}\n`,
    });
  });

  test('a pipe that is named points to -', () => {
    const said = 'this is a pipe, not a file; `lugwork check -` reads from a pipe\n';
    const folder = folderWith({ 'a.lug': clean });
    expect(lugworkIn('cat a.lug | lugwork check /dev/stdin', folder)).toEqual({
      code: 2,
      out: '',
      err: `lugwork: /dev/stdin: ${said}`,
    });
    expect(lugworkIn('lugwork check <(cat a.lug)', folder).err).toMatch(/^lugwork: \/dev\/fd\/\d+: this is a pipe, not a file; /);
  });

  test('the null device is an empty file, as Git’s external diff needs it', async () => {
    const folder = folderWith({ 'a.lug': clean });
    expect(inProcess(['check', '/dev/null'], folder)).toMatchObject({ code: 0, err: '' });
    const { code, out } = await inProcessAsync(['compare', '/dev/null', 'a.lug'], folder);
    expect([code, out]).toEqual([0, expect.stringContaining('bridge')]);
  });
});

describe('check - reads the standard input', () => {
  const piped = (input: string | Uint8Array, cwd: string, ...words: string[]) => lugwork(['check', ...words], cwd, {}, { input });

  test('and finds the same as in a file', () => {
    const folder = folderWith({ 'a.lug': broken });
    const file = inProcess(['check', '--format', 'json', 'a.lug'], folder);
    const pipe = piped(broken, folder, '--format', 'json', '-', '--path', 'a.lug');
    expect(pipe).toEqual(file);
    expect(pipe.code).toBe(1);
  });

  test('as the file of that name, whatever is on the disk, with the files that it uses', () => {
    const folder = folderWith({ 'deep/a.lug': 'nonsense', 'deep/used.lug': 'type mine : resistor { takes resistance 1k }\n' });
    const text = `use "used.lug"\n${clean}part r : mine from volume.1 to volume.case\n`;
    const { out } = piped(text, folder, '-', '--path', 'deep/a.lug');
    expect(out).not.toMatch(/\[(use|syntax|unknown)/);
    expect(piped(text, folder, '-').out).toContain('-:1:5: error [use]');
  });

  test('beside files, and with a baseline', () => {
    const folder = folderWith({ 'b.lug': clean });
    const { files } = JSON.parse(piped(broken, folder, '--format', 'json', '-', 'b.lug').out) as { files: { path: string }[] };
    expect(files.map(({ path }) => path)).toEqual(['-', 'b.lug']);
    expect(piped(broken, folder, '-', '--write-baseline', 'known.json').code).toBe(0);
    expect(piped(broken, folder, '-', '--baseline', 'known.json').code).toBe(0);
  });

  test.each([
    [
      'not UTF-8',
      Uint8Array.of(0xe9, 0x20),
      'the standard input is not a circuit: this file is not UTF-8 text; save it as UTF-8',
    ],
    ['too long', Buffer.alloc(4_000_001, 32), 'the standard input is not a circuit: it has more than 4,000,000 bytes'],
  ])('refuses what is %s', (_, input, message) => {
    expect(piped(input, folderWith({}), '-')).toEqual({ code: 2, out: '', err: `lugwork: ${message}\n` });
  });

  test('waits for one who writes slowly', () => {
    const { code, out } = lugworkIn(
      '(head -n 12 a.lug; sleep 1; tail -n +13 a.lug) | lugwork check -',
      folderWith({ 'a.lug': clean }),
    );
    expect([code, out]).toEqual([0, '1 file checked: no errors, no warnings\n']);
  });

  test('does not write over the file that --path names', () => {
    const folder = folderWith({ 'a.json': '{}' });
    const { code, err } = piped(clean, folder, '-', '--path', 'a.json', '--write-baseline', 'a.json');
    expect([code, err]).toEqual([2, expect.stringContaining('a.json is ')]);
    expect(readFileSync(join(folder, 'a.json'), 'utf8')).toBe('{}');
  });

  test('--path without it, and format with it, are mistakes', () => {
    const folder = folderWith({ 'a.lug': clean });
    expect(inProcess(['check', 'a.lug', '--path', 'b.lug'], folder)).toMatchObject({
      code: 2,
      err: 'lugwork: --path says what the standard input is, and needs - as FILE\n',
    });
    expect(lugwork(['format', '-'], folder).code).toBe(2);
  });
});

describe('a byte order mark', () => {
  test('is kept by format and counts for no column', () => {
    const folder = folderWith({ 'marked.lug': `\uFEFF${untidy}`, 'plain.lug': untidy });
    const findingsOf = (name: string): unknown =>
      (JSON.parse(inProcess(['check', '--format', 'json', name], folder).out) as { files: { findings: unknown }[] }).files[0]!
        .findings;
    expect(findingsOf('marked.lug')).toEqual(findingsOf('plain.lug'));
    expect(inProcess(['format', '.'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'marked.lug'), 'utf8')).toBe('\uFEFFpart a : pot 250k\n');
    expect(readFileSync(join(folder, 'plain.lug'), 'utf8')).toBe('part a : pot 250k\n');
  });
});

test('a list of names is read with every kind of line end', () => {
  const folder = folderWith({ 'a.lug': clean, 'b.lug': clean, 'c.lug': clean, '.lugignore': 'a.lug\rb.lug\r\nx\n' });
  mkdirSync(join(folder, 'x'));
  writeFileSync(join(folder, 'x/d.lug'), clean);
  expect(inProcess(['check', '.'], folder).out).toBe(
    '1 file checked: no errors, no warnings; ignored by .lugignore: a.lug, b.lug, x\n',
  );
});
