/** Every position of every example against its table worked by hand. */
import { describe, expect, it } from 'vitest';
import { positionTable } from '../../language/electrics/index.js';
import { exampleNames, examplesUri, createBench, settingOf } from './harness.js';
import { holdRow } from './rows.js';
import { readSheets } from './tables.js';

const bench = createBench();
const pieces = ['house-controls.lug', 'house-parts.lug'];

describe.each(exampleNames('').filter((name) => !pieces.includes(name)))('%s', (name) => {
  const circuit = bench.circuit(examplesUri + name);
  const [sheet] = readSheets(new URL(`hand-worked/${name.replace('.lug', '.md')}`, import.meta.url));

  it.each(sheet?.rows ?? [])('$setting', (row) => holdRow(circuit, row));

  it('has a row for every combination of its switches at each output', () => {
    const { rows, leftOut } = positionTable(circuit);
    const usual = rows[0]?.output;
    const worked = sheet!.rows.map((row) => `${row.output || usual} ${settingOf(circuit, row.setting).positions.join()}`);
    expect(leftOut).toEqual([]);
    const unworked = rows.filter((row) => !worked.includes(`${row.output} ${row.setting.positions.join()}`));
    expect(unworked.map(({ output, label }) => `${output} ${label}`)).toEqual([]);
  });
});
