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

  it('has a row for every combination of its switches', () => {
    const worked = sheet!.rows.map((row) => settingOf(circuit, row.setting).positions.join());
    const { rows, leftOut } = positionTable(circuit);
    expect(leftOut).toEqual([]);
    expect(rows.filter((row) => !worked.includes(row.setting.positions.join())).map((row) => row.label)).toEqual([]);
  });
});
