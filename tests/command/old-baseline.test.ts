/** Baselines of version 1, which recognised findings by their sentences.
 * `baselines/version-1.json` was written on 2026-11-29 by
 * `lugwork check --write-baseline version-1.json circuits` of commit 697a688, the last version with those sentences, for the circuits in
 * `baselines/circuits.txt`: `examples/faulty`, the examples of the rules' pages and the cases of `tests/checks/cases` as they were then.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

interface Entry {
  readonly path: string;
  readonly rule: string;
  readonly message: string;
}

/** Rules that are newer than the baseline: what they find is new to it, and counts. */
const newer: ReadonlySet<string> = new Set(['unusual-part']);
const isOld = ({ rule }: Entry) => !newer.has(rule);

const place = new URL('baselines/', import.meta.url);
/** Circuits that use as a mistake what has come into the language since: a lever with six positions. */
const overtaken: ReadonlySet<string> = new Set(['faulty/type-that-does-not-exist.lug']);
const written = JSON.parse(readFileSync(new URL('version-1.json', place), 'utf8')) as { readonly findings: readonly Entry[] };
const entries = written.findings.filter(({ path }) => !overtaken.has(path.replace('circuits/', '')));
const old = JSON.stringify({ ...written, findings: entries });
const circuits = readFileSync(new URL('circuits.txt', place), 'utf8')
  .split(/^=== /m)
  .slice(1)
  .map((block) => [block.slice(0, block.indexOf('\n')), block.slice(block.indexOf('\n') + 1)] as const)
  .filter(([name]) => !overtaken.has(name));

const check = (folder: string, ...words: string[]) =>
  inProcess(['check', '--baseline', 'known.json', '--effort', '0', '--all', '--format', 'json', ...words], folder);

function adopted(baseline: string) {
  const files = Object.fromEntries(circuits.map(([name, text]) => [`circuits/${name}`, text]));
  return folderWith({ ...files, 'known.json': baseline });
}

test('every finding of such a baseline is known, whatever its sentence is now, and nothing is left of it', () => {
  const { code, out } = check(adopted(old), '--strict', 'circuits');
  const { files, baseline } = JSON.parse(out) as {
    files: { path: string; findings: Entry[] }[];
    baseline: { known: number; gone: Entry[] };
  };
  expect(files.flatMap(({ path, findings }) => findings.filter(isOld).map(({ message }) => `${path}: ${message}`))).toEqual([]);
  expect(baseline.gone).toEqual([]);
  expect(baseline.known).toBe(entries.length);
  expect(code).toBe(files.some(({ findings }) => findings.length > 0) ? 1 : 0);
});

test('an entry knows no finding about something else, and none of its rule at another position', () => {
  const moved = entries.filter(({ rule }) => rule === 'silent-position').slice(0, 4);
  expect(moved.length).toBeGreaterThan(2);
  for (const { path, message } of moved) {
    const others = entries.filter((entry) => !(entry.path === path && entry.message === message));
    const known = adopted(JSON.stringify({ version: 1, findings: others }));
    const { out } = check(known, path);
    const { files } = JSON.parse(out) as { files: { findings: Entry[] }[] };
    expect(files.flatMap(({ findings }) => findings.map(({ rule }) => rule))).toEqual(['silent-position']);
  }
}, 120_000);

test('written again it is a baseline of version 2 that knows the same', () => {
  const folder = adopted(old);
  expect(inProcess(['check', '--write-baseline', 'known.json', 'circuits'], folder).code).toBe(0);
  const written = JSON.parse(readFileSync(join(folder, 'known.json'), 'utf8')) as { version: number; findings: Entry[] };
  expect([written.version, written.findings.filter(isOld).length]).toEqual([2, entries.length]);
  expect(check(folder, '--strict', 'circuits').code).toBe(0);
  // Wording says nothing.
  const reworded = { ...written, findings: written.findings.map((entry) => ({ ...entry, message: 'in other words' })) };
  writeFileSync(join(folder, 'known.json'), JSON.stringify(reworded));
  expect(check(folder, '--strict', 'circuits').code).toBe(0);
});
