/** Holds a row worked by hand against what the tool computes for that setting. */
import { expect } from 'vitest';
import type { AnalysedCircuit, LugId } from '../../language/circuit/model.js';
import { describeSound, heardAt, readAtJack } from '../../language/electrics/index.js';
import { settingOf } from './harness.js';
import { evaluate, type Row } from './tables.js';

/** Sound and hum in words, the reading within 0.1 % of the working, and the working within 0.1 % of the figure that was written down. */
export function holdRow(whole: AnalysedCircuit, row: Row): void {
  const circuit = heardAt(whole, outputOf(whole, row));
  const setting = settingOf(circuit, row.setting);
  if (row.sounds !== '-') {
    const sound = describeSound(circuit, setting);
    expect({ sounds: sound.text, hum: sound.hum }, row.setting).toEqual({ sounds: row.sounds, hum: row.hum });
  }
  const reading = readAtJack(circuit, setting);
  if (row.working === 'open' || row.working === '?') {
    expect(reading.ohm, row.setting).toBeNull();
    expect(reading.unknown, row.setting).toBe(row.working === '?');
    return;
  }
  const ohm = evaluate(row.working);
  holdNear(Number(row.ohm), ohm, `${row.setting}: the figure of the table`);
  holdNear(reading.ohm, ohm, `${row.setting}: the reading`);
  if (row.low !== undefined) holdNear(reading.low, Number(row.low), `${row.setting}: the low end`);
  if (row.high !== undefined) holdNear(reading.high, Number(row.high), `${row.setting}: the high end`);
}

function outputOf({ lugs }: AnalysedCircuit, { output = '' }: Row): LugId | undefined {
  const lug = lugs.find(({ label }) => label === output)?.id;
  if (lug === undefined && output !== '') throw new Error(`no such output in the circuit: ${output}`);
  return lug;
}

function holdNear(actual: number | null, wanted: number, what: string): void {
  expect(actual, what).not.toBeNull();
  expect(Math.abs(actual! - wanted), `${what}: ${actual} against ${wanted}`).toBeLessThanOrEqual(Math.max(wanted * 1e-3, 1e-3));
}
