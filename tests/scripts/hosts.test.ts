/** The lock between processes, and the editor hosts that are installed under it: at once, interrupted, half-filled. */
import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { withLock } from '../editor/hosts/lock.js';
import { freshMachine, printed } from './stand-ins.js';

test('a lock is waited for as long as its owner lives, however old it is', async () => {
  const { start, hosts } = freshMachine();
  const lock = join(hosts, 'lock');
  const owner = start('hold-lock', lock);
  await printed(owner, 'has the lock');
  let isOurs = false;
  const ours = withLock(lock, { waiting: 'waiting', staleMs: 2000 }, async () => {
    isOurs = true;
    return owner.text();
  });
  // Twice the time after which a dead owner's lock is taken.
  await new Promise((resolve) => setTimeout(resolve, 4000));
  expect(isOurs).toBe(false);
  owner.child.stdin!.end();
  expect(await ours).toContain('gives the lock back');
});

test('the lock of an owner that was killed does not block', async () => {
  const { start, hosts } = freshMachine();
  const lock = join(hosts, 'lock');
  const owner = start('hold-lock', lock);
  await printed(owner, 'has the lock');
  owner.child.kill('SIGKILL');
  await owner.ended;
  expect(existsSync(lock)).toBe(true);
  expect(await withLock(lock, { waiting: 'waiting', staleMs: 2000 }, () => Promise.resolve('ours'))).toBe('ours');
  expect(existsSync(lock)).toBe(false);
});

test('two processes that install a host at once fill it once', async () => {
  const { start, hosts } = freshMachine();
  const both = [start('install-host'), start('install-host')];
  expect(await Promise.all(both.map(({ ended }) => ended)), both.map(({ text }) => text()).join('\n')).toEqual([0, 0]);
  expect(both.filter(({ text }) => text().includes('half of it is there'))).toHaveLength(1);
  expect(readdirSync(hosts)).toEqual(['host']);
  expect(readdirSync(join(hosts, 'host')).sort()).toEqual(['first', 'package.json', 'second']);
});

test('an installation that is killed half-way leaves no host, and the next one installs it whole', async () => {
  const { start, hosts } = freshMachine();
  const killed = start('install-host', 'hang');
  await printed(killed, 'half of it is there');
  killed.child.kill('SIGKILL');
  await killed.ended;
  expect(existsSync(join(hosts, 'host'))).toBe(false);
  const next = start('install-host');
  expect(await next.ended, next.text()).toBe(0);
  expect(readdirSync(hosts)).toEqual(['host']);
  expect(readdirSync(join(hosts, 'host')).sort()).toEqual(['first', 'package.json', 'second']);
});

test('a folder that an earlier run left half-filled is thrown away', async () => {
  const { start, hosts } = freshMachine();
  // No process has this number: it is above the highest that Linux gives.
  const left = join(hosts, 'partial-host-4194305');
  mkdirSync(left, { recursive: true });
  writeFileSync(join(left, 'first'), '');
  const run = start('install-host');
  expect(await run.ended, run.text()).toBe(0);
  expect(readdirSync(hosts)).toEqual(['host']);
});
