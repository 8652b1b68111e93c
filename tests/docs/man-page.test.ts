/** The manual page: everything that the help says, and nothing that the formatter doesn't know. */
import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { commands } from '../../server/command/commands/index.js';
import { optionsOf } from '../../server/command/options.js';
import { manPage } from '../../server/docs/man-page.js';

const page = manPage('1.2.3');
const plain = page.replaceAll('\\-', '-');

test('has every command, option and example', () => {
  for (const command of commands) {
    expect(plain).toContain(`.SS lugwork ${command.name}`);
    const [, own = ''] = plain.split(`.SS lugwork ${command.name}`);
    for (const { name } of optionsOf(command)) expect(own).toContain(`--${name}`);
  }
  expect(plain).toContain('\nlugwork check no-3.lug\n');
});

test('begins no line with a sign of the formatter but for its own requests', () => {
  const requests = page.split('\n').flatMap((line) => /^[.'](\w*)/.exec(line)?.[1] ?? []);
  expect([...new Set(requests)].sort()).toEqual(['B', 'PP', 'RE', 'RS', 'SH', 'SS', 'TH', 'TP', 'br', 'fi', 'nf']);
  for (const [escape] of page.matchAll(/\\(?:\(..|.)/g))
    expect(['\\-', '\\e', '\\&', '\\(ga', '\\(aq', '\\(dq']).toContain(escape);
});

test.skipIf(spawnSync('groff', ['--version']).status !== 0)('groff formats it without a warning', () => {
  const { stdout, stderr, status } = spawnSync('groff', ['-man', '-Kutf8', '-Tutf8', '-ww', '-P-c'], {
    input: page,
    encoding: 'utf8',
  });
  expect([status, stderr]).toEqual([0, '']);
  expect(stdout.replace(/\s+/g, ' ')).toContain('apply fixes and rewrite the files');
});
