/** Hum by turns: worked by hand from the definition, the sum of turns × winding that each coil delivers, over the sum of its magnitudes. */
import { describe, expect, it, test } from 'vitest';
import { describeSound, restingSetting } from '../../language/electrics/index.js';
import { soundCircuit } from '../circuit/harness.js';

function hum(text: string): readonly [string, number | null] {
  const circuit = soundCircuit(text);
  const { hum: word, humDb } = describeSound(circuit, restingSetting(circuit));
  return [word, humDb];
}

/** Two pickups in series, so that each delivers nearly all of its voltage. */
const series = (first: string, second: string): string => `
part a : single-coil 6k 2.4H ${first}
part b : single-coil 6k 2.4H ${second}
part output : jack
wire a.hot to output.tip
wire a.ground to b.hot
wire b.ground to output.sleeve`;

describe('two coils of known turns', () => {
  // |N1 − N2| / (N1 + N2) for opposite windings, as dB.
  test.each([
    [5000, 5000, 'cancelled', -60],
    [5000, 4200, 'cancelled', 20 * Math.log10(800 / 9200)],
    [5000, 4000, 'partly', 20 * Math.log10(1000 / 9000)],
    [6000, 2100, 'partly', 20 * Math.log10(3900 / 8100)],
    [6000, 1900, 'present', 20 * Math.log10(4100 / 7900)],
  ])('%i and %i turns, wound opposite: %s', (one, other, word, db) => {
    const [found, humDb] = hum(series(`{ turns ${one} }`, `{ turns ${other}, wound reverse, magnet south }`));
    expect(found).toBe(word);
    expect(humDb).toBeCloseTo(db, 1);
  });

  it('wound alike, all of it is left', () => {
    expect(hum(series('{ turns 5000 }', '{ turns 4000 }'))).toEqual(['present', expect.closeTo(0, 6)]);
  });
});

it('turns that are not given go by the root of the inductance, in the proportion of those that are', () => {
  // 5000 turns at 2.4 H, so 4000 at 2.4 · 0.64 H.
  const [word, db] = hum(
    series('{ turns 5000 }', '{ wound reverse, magnet south }').replace(
      'b : single-coil 6k 2.4H',
      `b : single-coil 6k ${2.4 * 0.64}H`,
    ),
  );
  expect([word, db]).toEqual(['partly', expect.closeTo(20 * Math.log10(1000 / 9000), 0)]);
});

it('lowering a pickup makes it softer and does not bring hum back', () => {
  expect(hum(series('', '{ wound reverse, magnet south, output 30% }'))[0]).toBe('cancelled');
});

it('a dummy coil cancels only as far as its turns match', () => {
  expect(hum(series('{ turns 5000 }', '{ turns 5000, wound reverse, output 0% }'))[0]).toBe('cancelled');
  expect(hum(series('{ turns 5000 }', '{ turns 2500, wound reverse, output 0% }'))[0]).toBe('partly');
});

it('half of a tapped winding has half the turns', () => {
  const tapped = (tap: number): string => `
part a : single-coil-tapped 8k 4H { tap ${tap}%, turns 8000 }
part b : single-coil 6k 2.4H { turns 4000, wound reverse, magnet south }
part output : jack
wire a.tap to output.tip
wire a.ground to b.hot
wire b.ground to output.sleeve`;
  expect(hum(tapped(50))[0]).toBe('cancelled');
  expect(hum(tapped(90))[0]).toBe('partly');
});
