/** Keys of rows that are ticked: they stay under every edit that does not touch what the row says to do, and go when it does. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { buildOf, benchSheet } from '../../language/workshop/index.js';
import { createProject } from '../../language/project.js';
import { circuitOf } from '../circuit/harness.js';

const folder = new URL('../../examples/', import.meta.url);
const names = readdirSync(folder).filter((name) => name.endsWith('.lug'));
const textOf = (name: string): string => readFileSync(new URL(name, folder), 'utf8');
const rowsOf = (text: string) =>
  benchSheet(buildOf(circuitOf(text))).sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) => (block.kind === 'ticks' ? block.rows : [])),
  );
const keysOf = (text: string): Set<string> => new Set(rowsOf(text).map(({ key }) => key));
const lost = (before: string, after: string): string[] => {
  const kept = keysOf(after);
  return [...keysOf(before)].filter((key) => !kept.has(key));
};
const text = textOf('two-single-coils-lever-3.lug');

describe('an edit that touches no step', () => {
  test.each([
    ['a comment before everything', (one: string) => `// A note.\n\n${one}`],
    ['another title', (one: string) => one.replace(/instrument ".*?"/, 'instrument "Another one"')],
    ['an expectation more', (one: string) => `${one}\nexpect volume 0 : silent\n`],
    ['a rig', (one: string) => `${one}\nrig { cable 3m }\n`],
  ])('%s loses no tick', (_, change) => {
    for (const name of names.filter((one) => !textOf(one).includes('use "')))
      expect(lost(textOf(name), change(textOf(name))), name).toEqual([]);
  });

  test('a wire put in before all others numbers them anew and loses no tick but those of its own lugs', () => {
    const after = text.replace(/^wire /m, 'part lamp : star\npart switch-2 : spst\nwire lamp to switch-2.A0 green 24awg\nwire ');
    const gone = lost(text, after).filter((key) => !key.startsWith('test ') && !key.startsWith('final '));
    // What is fixed on the plate has changed.
    expect(gone.every((key) => key.startsWith('mount '))).toBe(true);
  });
});

describe('an edit that touches a step takes its tick', () => {
  const line = 'wire volume.2    to output.tip white 22awg';
  expect(text).toContain(line);
  test.each([
    ['another colour', line.replace('white', 'blue'), 'wire volume.2 output.tip'],
    ['another length', `${line} 90mm`, 'wire volume.2 output.tip'],
    ['another lug', line.replace('volume.2', 'volume.3'), 'solder volume.2:'],
    ['a wire more on the lug', `${line}\nwire volume.2 to tone.3 blue`, 'solder volume.2:'],
  ])('%s', (_, change, key) => {
    const gone = lost(text, text.replace(line, change));
    expect(gone.some((one) => one.includes(key))).toBe(true);
    // And no step of the lever or of the pickups’ leads.
    expect(gone.filter((one) => /^(wire|solder) (selector|bridge|neck)\./.test(one))).toEqual([]);
  });
});

test('keys are one of a kind in every sheet, ticks or not', () => {
  const project = createProject({ read: (uri) => readFileSync(new URL(uri), 'utf8') });
  for (const name of names) {
    const circuit = project.circuit(new URL(name, folder).href)!;
    if (circuit.isLibrary) continue;
    const keys = benchSheet(buildOf(circuit)).sections.flatMap(({ blocks }) =>
      blocks.flatMap((block) => (block.kind === 'ticks' ? block.rows.map(({ key }) => key) : [])),
    );
    expect(keys.length - new Set(keys).size, name).toBe(0);
    const [first] = keys;
    if (first === undefined) continue;
    const rows = benchSheet(buildOf(circuit), { done: new Set([first]) }).sections.flatMap(({ blocks }) =>
      blocks.flatMap((block) => (block.kind === 'ticks' ? block.rows : [])),
    );
    expect(rows.filter(({ isDone }) => isDone === true).map(({ key }) => key)).toEqual([first]);
  }
});
