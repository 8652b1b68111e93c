/** `lugwork draw` as a user runs it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Scene } from '../../language/drawing/index.js';
import { folderWith, lugwork } from '../harness/process.js';
import { drawing, exampleText } from './support.js';

const name = 'two-single-coils-lever-3';
const folder = (): string => folderWith({ 'no-3.lug': exampleText(name) });

test('the picture goes to the standard output, or to a file', () => {
  const cwd = folder();
  const shown = lugwork(['draw', 'no-3.lug'], cwd);
  expect(shown.err).toBe('');
  expect(shown.code).toBe(0);
  expect(shown.out).toMatch(/^<svg [^]*<\/svg>\n$/);
  const written = lugwork(['draw', 'no-3.lug', '-o', 'no-3.svg'], cwd);
  expect(written).toEqual({ code: 0, out: '', err: '' });
  expect(readFileSync(join(cwd, 'no-3.svg'), 'utf8')).toBe(shown.out);
});

test('the scene is the one that the library makes', async () => {
  const { out } = lugwork(['draw', 'no-3.lug', '--format', 'json'], folder());
  expect(JSON.parse(out) as Scene).toEqual((await drawing(name, { sheet: { file: 'no-3.lug' } })).scene);
});

test('--set lights a setting, --side turns the sheet over', () => {
  const { out } = lugwork(['draw', 'no-3.lug', '--set', 'selector 2', '--side', 'player'], folder());
  expect(out).toContain('selector &quot;both&quot;: sounds parallel(bridge, neck), hum cancelled');
  expect(out).toContain('Seen from the player’s side');
  expect(out).toMatch(/class="contact closed lit"/);
});

test('what cannot be is said, with exit code 2', () => {
  const cwd = folder();
  expect(lugwork(['draw', 'no-4.lug'], cwd).code).toBe(2);
  const set = lugwork(['draw', 'no-3.lug', '--set', 'selector 9'], cwd);
  expect(set.code).toBe(2);
  expect(set.err).toContain('--set');
  const output = lugwork(['draw', 'no-3.lug', '-o', 'nowhere/no-3.svg'], cwd);
  expect(output.code).toBe(2);
  expect(output.err).toContain('nowhere/no-3.svg can’t be written');
});
