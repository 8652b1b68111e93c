/** The benchmark of growth runs, and its texts are what their names say. */
import { expect, test } from 'vitest';
import { findings } from '../../language/findings.js';
import { lower } from '../../language/circuit/index.js';
import { parseText } from '../../language/grammar/index.js';
import { copiesOf } from './copies.js';
import { growing } from './growing-texts.js';
import { growthTable } from './growth-table.js';

const circuitOf = (text: string) => lower(parseText('bench:/growing.lug', text));

test('a row for a kind: a time for each size, the exponent, and that of each stage', () => {
  const { heads, rows } = growthTable([5, 10], ({ name }) => name === 'misspelt part names' || name.endsWith('crowded-lug'));
  expect(heads).toEqual(['what grows', '5', '10', 'exponent', 'parse', 'lower', 'check', 'format']);
  expect(rows).toHaveLength(2);
  for (const row of rows) expect(row).toHaveLength(heads.length);
});

test.each(growing.filter(({ name }) => /^(misspelt|unknown|names given|types given)/.test(name)))(
  '$name: a problem for each, but perhaps the first',
  ({ text }) => {
    expect(circuitOf(text(12)).problems.filter(({ severity }) => severity === 'error').length).toBeGreaterThanOrEqual(11);
  },
);

test.each(growing.slice(0, 15))('$name: no fault of the text', ({ text }) => {
  expect(circuitOf(text(12)).problems.map(({ message }) => message)).toEqual([]);
});

test('copies have their own parts, and share the jack and the title', () => {
  const text =
    'instrument "Alder Lane no. 61"\npart p : single-coil 6k\npart j : jack\nwire p.hot to j.tip\nwire p.ground to j.sleeve\n';
  const circuit = circuitOf(copiesOf(text, 3));
  expect(circuit.parts.map(({ name }) => name).sort()).toEqual(['j', 'p-1', 'p-2', 'p-3']);
  expect(circuit.joints).toHaveLength(6);
  expect(findings(circuit).filter(({ severity }) => severity === 'error')).toEqual([]);
});
