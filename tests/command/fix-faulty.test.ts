/** `check --fix=likely` over all faulty examples: what is fixed has fewer errors and none that is new, and a second run changes nothing. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { read, root } from '../harness/checkout.js';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

interface Found {
  readonly severity: string;
  readonly rule: string;
  readonly claim: { readonly kind?: string; readonly subjects?: object; readonly settings?: object };
}

const at = (path: string): string => readFileSync(join(folder, path), 'utf8');

const names = readdirSync(join(root, 'examples/faulty')).filter((name) => name.endsWith('.lug'));
let folder: string;
let before: ReadonlyMap<string, readonly string[]>;
let after: ReadonlyMap<string, readonly string[]>;
let texts: readonly string[];

const errors = (): ReadonlyMap<string, readonly string[]> => {
  const { out } = inProcess(['check', '--all', '--format', 'json', '--effort', '0', '.'], folder);
  const { files } = JSON.parse(out) as { files: { path: string; findings: Found[] }[] };
  const says = ({ rule, claim: { kind, subjects, settings } }: Found): string => JSON.stringify([rule, kind, subjects, settings]);
  return new Map(files.map(({ path, findings }) => [path, findings.filter(({ severity }) => severity === 'error').map(says)]));
};

beforeAll(() => {
  folder = folderWith(Object.fromEntries(names.map((name) => [name, read(`examples/faulty/${name}`)])));
  before = errors();
  inProcess(['check', '--fix=likely', '.'], folder);
  texts = names.map((name) => at(name));
  after = errors();
});

test('no example has a new error, and those that were changed have fewer, or none to begin with', () => {
  const changed = names.filter((name, index) => texts[index] !== read(`examples/faulty/${name}`));
  expect(changed.length).toBeGreaterThan(35);
  for (const name of names) {
    const left = [...(before.get(name) ?? [])];
    for (const error of after.get(name) ?? []) {
      expect(left, name).toContain(error);
      left.splice(left.indexOf(error), 1);
    }
    if (changed.includes(name) && (before.get(name) ?? []).length > 0) expect(left.length, name).toBeGreaterThan(0);
  }
});

test('nothing changes the second time', () => {
  const { out } = inProcess(['check', '--fix=likely', '.'], folder);
  expect(out).toContain('no fixes applied');
  expect(names.map((name) => at(name))).toEqual(texts);
});
