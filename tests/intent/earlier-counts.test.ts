/** A claim that held by what version 0.1 counted is reported with what the figure means now; one that never held is not. */
import { describe, expect, test } from 'vitest';
import { findings } from '../../language/findings.js';
import { circuitOf } from './harness.js';

/** What is said of the expectations that fail. */
const reasons = (text: string): (string | undefined)[] =>
  findings(circuitOf(text))
    .filter(({ rule }) => rule === 'expectation')
    .map(({ why }) => why);

/** Two pickups in parallel of one resistance, so that each delivers half; the second is `turned` or not. */
const pair = (turned: string, claim: string): string => `instrument "Pair"
part one : single-coil 6k 2H
part two : single-coil 6k 6H { ${turned} }
part output : jack
wire one.hot to two.hot to output.tip
wire one.ground to two.ground to output.sleeve
expect : ${claim}
`;

describe('hum', () => {
  // By output nothing is left; by turns (√6 − √2) / (√6 + √2) = 27 %, which is cancelled in part.
  test('that cancelled by output says so where it cancels only partly by turns', () => {
    expect(reasons(pair('wound reverse, magnet south', 'hum cancelled'))).toEqual([
      expect.stringMatching(/^It holds by the count of version 0\.1, which weighed each coil by its output/),
    ]);
    expect(reasons(pair('wound reverse, magnet south', 'hum partly'))).toEqual([]);
  });

  test('of two coils that are wound alike never cancelled', () => {
    expect(reasons(pair('wound forward', 'hum cancelled'))).toEqual([undefined]);
  });
});

/** The frequency of the peak of an inductance with 620 pF: f = 1/(2π√(LC)) (textbook), 8 kΩ and 1 MΩ leave it within 3 %. */
const resonance = (henry: number): string => `peak ${(1 / (2 * Math.PI * Math.sqrt(henry * 620e-12))).toFixed(0)}Hz within 3%`;

describe('the inductance of a pickup', () => {
  const coupled = (claim: string): string => `instrument "Coupled"
rig { cable 500pF, input 1M }
part bridge : humbucker 8k 4.4H 120pF { coupling 20% }
part output : jack
wire bridge.hot to output.tip
wire bridge.ground to output.sleeve
expect : ${claim}
`;

  // Version 0.1: L/2 + L/2 − 2 k L/2 = 3.52 H; now the whole is L.
  test('was lowered by a coupling', () => {
    expect(reasons(coupled(resonance(3.52)))).toEqual([
      expect.stringMatching(/^It holds with the inductances of version 0\.1, .* coupling/),
    ]);
    expect(reasons(coupled(resonance(4.4)))).toEqual([]);
    expect(reasons(coupled(resonance(2.5)))).toEqual([undefined]);
  });

  const tapped = (claim: string): string => `instrument "Tapped"
rig { cable 434.29pF, input 1M }
part bridge : single-coil-tapped 8k 4H 130pF { tap 70% }
part output : jack
wire bridge.tap to output.tip
wire bridge.ground to output.sleeve
expect : ${claim}
`;

  // Version 0.1: 70 % of 4 H. Across the tap lies 130 pF / 0.7 = 186 pF, so that with the lead it is 620 pF.
  test('was divided at a tap by its share', () => {
    expect(reasons(tapped(resonance(2.8)))).toEqual([expect.stringMatching(/^It holds with the inductances of version 0\.1/)]);
    expect(reasons(tapped(resonance(1.2)))).toEqual([undefined]);
  });
});
