/** Generated circuits against a general circuit solver: response within 0.01 dB and 0.1°, DC within 0.01 %. */
import { afterAll, expect, it } from 'vitest';
import { createSolver, describeSound, meter, netNames, nets, spiceDeck } from '../../language/electrics/index.js';
import { directReference, sweepReference } from './general-solver.js';
import { createDice, randomInstrument, randomNetwork, type RandomCase } from './random-circuit.js';

/** Circuits of each kind that sound; those that are silent, as arbitrary ones often are, are compared and not counted. */
const cases = 170;
/** Below this level the deck's milliohms, which stand for joints, are heard themselves. */
const lowestDb = -100;

const worst = { db: 0, deg: 0, ohm: 0, compared: 0, below: 0, read: 0, open: 0, where: '' };

afterAll(() => {
  console.log(
    `${2 * cases} generated circuits that sound, and the silent ones between them, against the general solver: ${worst.compared} points, worst ${worst.db.toExponential(1)} dB, ` +
      `${worst.deg.toExponential(1)}° (${worst.where}), ${worst.below} below ${lowestDb} dB; ${worst.read} DC readings, worst ` +
      `${(worst.ohm * 100).toExponential(1)} %, ${worst.open} open`,
  );
});

it.each([
  ['instruments', randomInstrument, 1000],
  ['arbitrary networks', randomNetwork, 5000],
] as const)(
  '%s: response',
  async (kind, generate, from) => {
    let sounding = 0;
    for (let seed = from; sounding < cases; seed++) if (await compareResponse(generate(seed), `${kind} ${seed}`)) sounding++;
  },
  60_000,
);

it.each([
  ['instruments', randomInstrument, 1000],
  ['arbitrary networks', randomNetwork, 5000],
] as const)(
  '%s: DC resistance',
  async (kind, generate, from) => {
    for (let seed = from; seed < from + cases; seed++) await compareMeter(generate(seed), seed, `${kind} ${seed}`);
  },
  60_000,
);

/** True where the circuit sounds. */
async function compareResponse({ circuit, setting }: RandomCase, name: string): Promise<boolean> {
  const folded = nets(circuit, setting.positions);
  if (folded.tip === folded.ground) {
    expect(describeSound(circuit, setting).silent, name).toBe(true);
    return false;
  }
  const deck = spiceDeck(circuit, setting, { perDecade: 15 });
  const tip = netNames(circuit, folded)[folded.tip]!;
  const reference = await sweepReference(deck, tip);
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
    if (!(Math.abs(own - db) < 0.01) || !(deg < 0.1))
      expect.fail(`${name} at ${point.hz} Hz: ${own} dB, not ${db} dB; ${deg}° off\n${deck}`);
  });
  return loudest > -60;
}

async function compareMeter({ circuit, setting }: RandomCase, seed: number, name: string): Promise<void> {
  const folded = nets(circuit, setting.positions);
  const names = netNames(circuit, folded);
  const dice = createDice(seed + 99);
  const ends = dice.chance(0.5)
    ? ([circuit.output!.tip, circuit.output!.sleeve] as const)
    : ([dice.pick(circuit.lugs).id, dice.pick(circuit.lugs).id] as const);
  const [a, b] = ends.map((lug) => names[folded.of[lug]!]!) as [string, string];
  const { ohm } = meter(circuit, setting, ...ends);
  if (a === b) {
    expect(ohm, name).toBe(0);
    return;
  }
  const measured = Math.abs(await directReference(directDeck(spiceDeck(circuit, setting), a, b), 'probe')) / microampere;
  if (ohm === null) {
    worst.open++;
    expect(measured, `${name} reads open`).toBeGreaterThan(1e10);
    return;
  }
  worst.read++;
  // Where a milliohm of the deck is all there is, the reading is a short.
  const off = ohm < 1 ? Math.abs(measured - ohm) : Math.abs(measured / ohm - 1);
  if (ohm >= 1) worst.ohm = Math.max(worst.ohm, off);
  if (!(off < (ohm < 1 ? 0.01 : 1e-4))) expect.fail(`${name}: ${ohm} Ω, not ${measured} Ω\n${spiceDeck(circuit, setting)}`);
}

const microampere = 1e-6;

/** The same deck for an ohmmeter: batteries, lead and amplifier out, stages without supply, a current between the probes. */
function directDeck(deck: string, a: string, b: string): string {
  const nodes = new Set<string>();
  const lines = deck
    .split('\n')
    .filter((line) => !/^(R_(cell|e)\d*|R_amplifier|C_lead) |^\.(ac|print|end)/.test(line))
    .map((line) => (line.startsWith('E_') ? [...line.split(' ').slice(0, -1), '0'].join(' ') : line));
  for (const line of lines) {
    const words = line.split(' ');
    if (/^[RCLV]_/.test(line)) words.slice(1, 3).forEach((node) => nodes.add(node));
    if (line.startsWith('E_')) words.slice(1, 5).forEach((node) => nodes.add(node));
  }
  for (const end of [a, b]) nodes.add(end);
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
