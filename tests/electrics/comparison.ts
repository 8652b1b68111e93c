/** One setting of a circuit, ours beside a general circuit solver: response within 0.01 dB and 0.1°, DC within 0.01 %. */
import { expect } from 'vitest';
import { type AnalysedCircuit, altered, type Element, type LugId } from '../../language/circuit/model.js';
import { createSolver, describeSound, meter, netNames, nets, spiceDeck, type Setting } from '../../language/electrics/index.js';
import { restingRelays } from '../../language/electrics/settings/driven.js';
import { directReference, sweepReference } from './general-solver.js';

/** Below this level the deck's milliohms, which stand for joints, are heard themselves. */
const lowestDb = -100;
const microampere = 1e-6;

/** Comparisons made so far, and the worst of them. */
export interface Comparison {
  /** True where the setting sounds (above −60 dB somewhere). Fails the test where ours is off. */
  response(circuit: AnalysedCircuit, setting: Setting, name: string): Promise<boolean>;
  /** Between two lugs. */
  meter(circuit: AnalysedCircuit, setting: Setting, a: LugId, b: LugId, name: string): Promise<void>;
  /** One line for the summary of the test run. */
  summary(): string;
}

export function createComparison(): Comparison {
  const worst = { db: 0, deg: 0, ohm: 0, compared: 0, below: 0, read: 0, open: 0, where: '' };
  return {
    async response(circuit, setting, name) {
      const folded = nets(circuit, setting.positions);
      if (folded.tip === folded.ground) {
        expect(describeSound(circuit, setting).silent, name).toBe(true);
        return false;
      }
      const deck = spiceDeck(circuit, setting, { perDecade: 15 });
      const reference = await sweepReference(deck, netNames(circuit, folded)[folded.tip]!);
      const { re, im } = createSolver(circuit, folded, setting).sweep(reference.map(({ hz }) => hz));
      let loudest = -Infinity;
      reference.forEach((point, i) => {
        const db = 20 * Math.log10(Math.hypot(point.re, point.im));
        const own = 20 * Math.log10(Math.hypot(re[i]!, im[i]!));
        loudest = Math.max(loudest, db);
        expect(own, name).not.toBeNaN();
        if (db < lowestDb) {
          worst.below++;
          expect(own, `${name} at ${point.hz} Hz`).toBeLessThan(lowestDb + 0.01);
          return;
        }
        const turn = ((Math.atan2(im[i]!, re[i]!) - Math.atan2(point.im, point.re)) * 180) / Math.PI;
        const deg = Math.abs(turn - 360 * Math.round(turn / 360));
        if (Math.abs(own - db) > worst.db) worst.where = `${name} at ${point.hz.toFixed(0)} Hz`;
        worst.db = Math.max(worst.db, Math.abs(own - db));
        worst.deg = Math.max(worst.deg, deg);
        worst.compared++;
        if (!(Math.abs(own - db) < 0.01) || !(deg < 0.1)) {
          expect.fail(`${name} at ${point.hz} Hz: ${own} dB, not ${db} dB; ${deg}° off\n${deck}`);
        }
      });
      return loudest > -60;
    },

    async meter(circuit, powered, lugA, lugB, name) {
      // The battery is out.
      const setting = { ...powered, positions: restingRelays(circuit, powered.positions) };
      const folded = nets(circuit, setting.positions);
      const names = netNames(circuit, folded);
      const [a, b] = [names[folded.of[lugA]!]!, names[folded.of[lugB]!]!];
      const { ohm, unknown } = meter(circuit, setting, lugA, lugB);
      if (unknown) return;
      if (a === b) {
        expect(ohm, name).toBe(0);
        return;
      }
      const deck = directDeck(circuit, setting, a, b);
      const measured = Math.abs(await directReference(deck, 'probe')) / microampere;
      if (ohm === null) {
        worst.open++;
        expect(measured, `${name} reads open`).toBeGreaterThan(1e10);
        return;
      }
      worst.read++;
      // Where a milliohm of the deck is all there is, the reading is a short.
      const off = ohm < 1 ? Math.abs(measured - ohm) : Math.abs(measured / ohm - 1);
      if (ohm >= 1) worst.ohm = Math.max(worst.ohm, off);
      if (!(off < (ohm < 1 ? 0.01 : 1e-4))) expect.fail(`${name}: ${ohm} Ω, not ${measured} Ω\n${deck}`);
    },

    summary: () =>
      `${worst.compared} points, worst ${worst.db.toExponential(1)} dB, ${worst.deg.toExponential(1)}° (${worst.where}), ` +
      `${worst.below} below ${lowestDb} dB; ${worst.read} DC readings, worst ${(worst.ohm * 100).toExponential(1)} %, ${worst.open} open`,
  };
}

/** The circuit's deck for an ohmmeter: batteries, stages, lead and amplifier out, a current between the probes. */
function directDeck(circuit: AnalysedCircuit, setting: Setting, a: string, b: string): string {
  const open = { value: Infinity, unit: 'ohm', tolerance: 0, known: true } as const;
  const elements = circuit.elements.map((element): Element =>
    element.kind === 'battery' || element.kind === 'gain' ? { ...element, kind: 'resistor', resistance: open } : element,
  );
  const lines = spiceDeck(altered(circuit, { elements, rig: { cable: 0, input: Infinity } }), setting)
    .split('\n')
    .filter((line) => !/^\.(ac|print|end)/.test(line));
  const nodes = new Set([a, b, ...lines.flatMap((line) => (/^[RCLV]_/.test(line) ? line.split(' ').slice(1, 3) : []))]);
  nodes.delete('0');
  // The probe's own return is the other lug, so that either may be ground.
  return [
    ...lines,
    ...[...nodes].map((node, i) => `R_rest_${i} ${node} 0 1e13`),
    `E_probe probe 0 ${b} ${a} 1`,
    `I_probe ${b} ${a} DC -${microampere}`,
    '.op',
    '.end',
    '',
  ].join('\n');
}
