/** Missing programs are installed once, by one process at a time; where they can't be, one sentence names them. */
import { mkdirSync, rmdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { ensurePrograms, findNeed, installPrograms, missingSentence } from '../editor/hosts/needs.js';
import { prepare } from '../editor/hosts/prepare.js';
import { freshMachine, printed } from './stand-ins.js';

test('two processes at once: one installs, the other waits, and the package manager is asked once', async () => {
  const machine = freshMachine();
  const both = [machine.start('ensure-programs', 'chromium', 'rg'), machine.start('ensure-programs', 'chromium')];
  const codes = await Promise.all(both.map(({ ended }) => ended));
  expect(codes, both.map(({ text }) => text()).join('\n')).toEqual([0, 0]);
  expect(machine.asked()).not.toContain('refused');
  expect(machine.asked().filter((call) => call.includes('chromium'))).toHaveLength(1);
});

test('a package manager that is busy with something else is waited for', async () => {
  const machine = freshMachine();
  mkdirSync(machine.packageLock);
  const ours = machine.start('ensure-programs', 'make');
  await printed(ours, 'Another program is using the package manager; waiting until it is done …');
  rmdirSync(machine.packageLock);
  expect(await ours.ended, ours.text()).toBe(0);
  expect(machine.asked()).toContain('refused');
});

test('without root nothing is installed, and the sentence names the packages', async () => {
  const { programs, asked } = freshMachine();
  const machine = { path: programs, isRoot: false };
  await expect(ensurePrograms(['chromium', 'rg'], 'the editor in a browser', machine)).rejects.toThrow(
    'NOT RUN: the editor in a browser. Missing: chromium, ripgrep (rg); install with: sudo apt-get install chromium ripgrep.',
  );
  expect(asked()).toEqual([]);
});

test('on a system that is not Debian the sentence names the programs and no command of Debian', async () => {
  const machine = { path: freshMachine(false).programs, isRoot: true };
  expect(await installPrograms(['chromium', 'rg'], 'a test', machine)).toEqual(['chromium', 'rg']);
  const sentence = missingSentence(['chromium', 'rg'], machine);
  expect(sentence).toMatch(/^Missing: chromium, ripgrep \(rg\); install with this system's package manager/);
  expect(sentence).not.toContain('apt-get');
});

test('preparing a machine that can install nothing says so once, and names each part that cannot run', async () => {
  const said: string[] = [];
  const log = vi.spyOn(console, 'log').mockImplementation((text: string) => void said.push(text));
  vi.stubEnv('PATH', freshMachine(false).programs);
  const unready = await prepare(['browser', 'node', 'web']);
  vi.unstubAllEnvs();
  log.mockRestore();
  expect(said).toHaveLength(1);
  expect(said[0]).toMatch(/^Missing: chromium, .*Whatever needs this is not run and counts as failed\.$/);
  expect([...unready.keys()]).toEqual(['browser', 'node', 'web']);
  expect(unready.get('web')).toBe('chromium missing');
});

test('a package manager that fails is quoted, and what is missing is given', async () => {
  const { programs } = freshMachine();
  const script = '#!/bin/sh\necho "Reading package lists..."\necho "E: Unable to locate package chromium" >&2\nexit 100\n';
  writeFileSync(join(programs, 'apt-get'), script);
  const said: string[] = [];
  const log = vi.spyOn(console, 'log').mockImplementation((text: string) => void said.push(text));
  vi.stubEnv('PATH', programs);
  const missing = await installPrograms(['chromium'], 'a test', { path: programs, isRoot: true });
  vi.unstubAllEnvs();
  log.mockRestore();
  expect(missing).toEqual(['chromium']);
  expect(said.at(-1)).toBe('apt-get could not install chromium: E: Unable to locate package chromium');
});

test('a browser under the name that another system gives it will do', () => {
  const { programs } = freshMachine(false);
  writeFileSync(join(programs, 'chromium-browser'), '#!/bin/sh\n', { mode: 0o755 });
  expect(findNeed('chromium', programs)).toBe(join(programs, 'chromium-browser'));
  expect(findNeed('rg', programs)).toBeUndefined();
});
