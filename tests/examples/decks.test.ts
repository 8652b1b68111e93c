/** Decks written by hand from the wiring, solved by a general circuit solver, against our response: it holds the topology, too. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { response } from '../../language/electrics/index.js';
import { sweepReference } from '../electrics/general-solver.js';
import { examplesUri, createBench, settingOf } from './harness.js';

const folder = new URL('decks/', import.meta.url);
const bench = createBench();

describe.each(readdirSync(folder))('%s', (file) => {
  const deck = readFileSync(new URL(file, folder), 'utf8');
  const [, name] = /^\* (\S+\.lug)/.exec(deck)!;
  const [, setting] = /^\* set: (.*)$/m.exec(deck)!;

  it(`${name}, ${setting}: within 0.01 dB and 0.1° from 20 Hz to 20 kHz`, async () => {
    const wanted = await solve(deck);
    const circuit = bench.circuit(examplesUri + name!);
    const { points } = response(circuit, settingOf(circuit, setting!), { from: 20, to: 20000, points: wanted.length });
    expect(points).toHaveLength(wanted.length);
    const off = points.flatMap((point, index) => {
      const { hz, db, deg } = wanted[index]!;
      const near =
        Math.abs(point.hz / hz - 1) < 1e-9 && Math.abs(point.db - db) <= 0.01 && Math.abs(turn(point.deg - deg)) <= 0.1;
      return near ? [] : [{ point, hz, db, deg }];
    });
    expect(off).toEqual([]);
  });
});

async function solve(deck: string): Promise<readonly { readonly hz: number; readonly db: number; readonly deg: number }[]> {
  const tip = await sweepReference(deck, 'tip');
  return tip.map(({ hz, re, im }) => ({
    hz,
    db: 20 * Math.log10(Math.hypot(re, im)),
    deg: (Math.atan2(im, re) * 180) / Math.PI,
  }));
}

/** −180 to 180. */
function turn(deg: number): number {
  return deg - 360 * Math.round(deg / 360);
}
