/** `npm start` where no editor can be opened: one sentence says why, and the terminal shows the command. */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../harness/checkout.js';
import { freshMachine, type FreshMachine } from './stand-ins.js';

test('a browser but not the programs of the editor: the sentence names them', () => {
  const machine = freshMachine(false);
  writeFileSync(join(machine.programs, 'xdg-open'), '#!/bin/sh\n', { mode: 0o755 });
  const said = start(machine);
  expect(said).toContain(
    "The editor cannot be opened. Missing: g++, make, python3, ripgrep (rg); install with this system's package manager",
  );
  expect(said.match(/Missing/g)).toHaveLength(1);
});

// On these two systems there is always a display.
test.skipIf(['darwin', 'win32'].includes(process.platform))('no browser: the sentence says so', () => {
  expect(start(freshMachine(false))).toContain('this machine has neither a display nor a browser.');
});

/** What `npm start` prints on the machine; it must end by itself, after the command has been shown at work. */
function start(machine: FreshMachine): string {
  const env = { ...process.env, PATH: machine.programs, LUGWORK_EDITOR_HOSTS: machine.hosts, DISPLAY: '', WAYLAND_DISPLAY: '' };
  const run = spawnSync(process.execPath, [join(root, 'server', 'scripts', 'start.mjs')], { env, encoding: 'utf8' });
  expect(run.status, run.stdout + run.stderr).toBe(0);
  expect(run.stdout).toContain('$ npx lugwork check examples/');
  expect(run.stderr).not.toMatch(/^\s+at /m);
  return run.stdout;
}
