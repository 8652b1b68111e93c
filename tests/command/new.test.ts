/** `lugwork new`: each circuit to start from is whole, laid out, and checks without findings. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { startingCircuits } from '../../language/starts/index.js';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

test('prints a circuit with one pickup where none is named', () => {
  const { code, out, err } = inProcess(['new']);
  expect([code, err]).toEqual([0, '']);
  expect(out).toMatch(/^\/\*\* One pickup straight to a volume control\. \*\/\ninstrument "Untitled"\n/);
});

describe.each(startingCircuits.map(({ name }) => name))('%s', (name) => {
  const folder = folderWith({});

  test('checks without any finding, is laid out and states what it should do', () => {
    expect(inProcess(['new', '--pattern', name, '-o', 'new.lug'], folder)).toEqual({ code: 0, out: '', err: '' });
    const { code, out } = inProcess(['check', '--strict', '--format', 'json', 'new.lug'], folder);
    const [file] = (JSON.parse(out) as { files: { findings: unknown[] }[] }).files;
    expect([code, file?.findings]).toEqual([0, []]);
    expect(inProcess(['format', '--check', 'new.lug'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'new.lug'), 'utf8')).toMatch(/^expect .*: sounds /m);
  });

  test('does not replace a circuit without --force', () => {
    expect(inProcess(['new', '--pattern', name, '-o', 'new.lug'], folder).code).toBe(2);
    expect(inProcess(['new', '--pattern', name, '-o', 'new.lug', '--force'], folder).code).toBe(0);
  });

  test('says in a sentence what it is', () => {
    expect(startingCircuits.find((one) => one.name === name)?.summary).toMatch(/^[A-Z][^.]+\.$/);
    expect(inProcess(['new', '--help']).out).toContain(`${name}: `);
  });
});

test('an unknown name brings the nearest and the list', () => {
  const { code, out, err } = inProcess(['new', '--pattern', 'two-pickup-blend']);
  expect([code, out]).toEqual([2, '']);
  expect(err).toContain('--pattern two-pickup-blend is not known; did you mean two-pickups-blend? (one-pickup, ');
  for (const { name } of startingCircuits) expect(err).toContain(name);
});
