/** Seeded random circuits: instruments as they are wired, and arbitrary networks of every kind of element. */
import type { AnalysedCircuit, Circuit, Taper } from '../../language/circuit/model.js';
import type { Setting } from '../../language/electrics/index.js';
import { circuit, type CircuitBuilder } from './builder.js';

/** Numbers from a seed, each in 0 … 1 (mulberry32, public domain). */
export function createRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export interface Dice {
  readonly next: () => number;
  pick<T>(of: readonly T[]): T;
  /** Evenly on a logarithmic axis, three figures. */
  between(low: number, high: number): number;
  chance(share: number): boolean;
}

export function createDice(seed: number): Dice {
  const next = createRandom(seed);
  return {
    next,
    pick: (of) => of[Math.floor(next() * of.length)]!,
    between: (low, high) => Number((low * (high / low) ** next()).toPrecision(3)),
    chance: (share) => next() < share,
  };
}

export interface RandomCase {
  readonly circuit: AnalysedCircuit;
  readonly setting: Setting;
}

const tapers: readonly Taper[] = ['linear', 'audio', 'reverse-audio'];
const sign = (dice: Dice): 1 | -1 => (dice.chance(0.5) ? 1 : -1);

function coilValues(dice: Dice) {
  const ohm = dice.between(2000, 15000);
  return {
    ohm,
    henry: dice.between(0.8, 8),
    farad: dice.between(30e-12, 300e-12),
    output: dice.pick([1, 0.5, 0.8]),
    winding: sign(dice),
    magnet: sign(dice),
    ...(dice.chance(0.3) ? { loss: dice.between(1e5, 2e6) } : {}),
    ...coreLosses(createDice(ohm)),
  };
}

/** What core and cover lose, now and then; by dice of their own, so that the circuits round them stay the same. */
function coreLosses(dice: Dice) {
  const eddy = { share: dice.between(0.05, 0.9), ohm: dice.between(1e3, 3e5) };
  const exponent = dice.between(0.6, 1);
  const shading = dice.between(0.05, 0.9);
  switch (dice.pick(['none', 'none', 'none', 'eddy', 'exponent', 'cover', 'all'])) {
    case 'eddy':
      return { eddy };
    case 'exponent':
      return { exponent };
    case 'cover':
      return { eddy, shading };
    case 'all':
      return { eddy, exponent, shading };
    default:
      return {};
  }
}

function settingOf(dice: Dice, made: Circuit): Setting {
  return {
    positions: made.switches.map((device) => Math.floor(dice.next() * device.positions.length)),
    rotations: made.shafts.map(() => dice.pick([10, 10, 7, 3, 0, Number((dice.next() * 10).toFixed(1))])),
  };
}

/** Pickups through a selector, each perhaps with a volume, then tone, bass cut, bleed, master, perhaps a buffer. */
export function randomInstrument(seed: number): RandomCase {
  const dice = createDice(seed);
  const b = circuit();
  const count = dice.pick([1, 2, 2, 3]);
  const hots: string[] = [];
  for (let i = 1; i <= count; i++) {
    const name = `p${i}`;
    if (dice.chance(0.5)) {
      b.single(name, coilValues(dice)).wire(`${name}.ground`, 'output.sleeve');
    } else {
      b.humbucker(name, { ...coilValues(dice), ...(dice.chance(0.3) ? { coupling: dice.pick([0.2, 0.5, 0.7]) } : {}) }).wire(
        `${name}.ground`,
        'output.sleeve',
      );
      if (dice.chance(0.3)) b.resistor(`split${i}`, dice.between(100, 10000), `${name}.north-finish`, 'output.sleeve');
    }
    hots.push(dice.chance(0.4) ? volume(b, dice, `vol${i}`, `${name}.hot`) : `${name}.hot`);
  }
  b.switch('selector', selectorPositions(hots.length));
  hots.forEach((hot, i) => b.wire(hot, `selector.A${i + 1}`));
  let out = 'selector.A0';
  if (dice.chance(0.3)) {
    b.metal('behind').capacitor('bass', dice.between(1e-9, 22e-9), out, 'behind');
    out = 'behind';
  }
  if (dice.chance(0.8)) {
    b.pot('tone', { ohm: dice.pick([250e3, 500e3]), taper: dice.pick(tapers), noLoad: dice.chance(0.2) }).wire(out, 'tone.2');
    b.capacitor('tone-cap', dice.between(1e-9, 100e-9), 'tone.1', 'output.sleeve');
  }
  if (dice.chance(0.8)) out = volume(b, dice, 'master', out);
  if (dice.chance(0.25)) {
    b.buffer('buffer', { gain: dice.pick([1, 0.97, 3, -2]), input: dice.between(2e5, 5e6), output: dice.pick([0, 220, 2200]) })
      .wire(out, 'buffer.in')
      .wire('buffer.minus', 'output.sleeve');
    b.metal('supply').resistor('filter', 100, 'supply', 'buffer.plus');
    b.battery('cell', 'supply', dice.chance(0.8) ? 'output.sleeve' : 'buffer.plus');
    out = 'buffer.out';
  }
  b.wire(out, 'output.tip').rigged(dice.between(100e-12, 1500e-12), dice.between(1e5, 1e7));
  const made = b.build();
  return { circuit: made, setting: settingOf(dice, made) };
}

function volume(b: CircuitBuilder, dice: Dice, name: string, hot: string): string {
  b.pot(name, { ohm: dice.pick([250e3, 500e3, 1e6]), taper: dice.pick(tapers), end: dice.pick([0, 0, 20]) });
  const isIndependent = dice.chance(0.3);
  b.wire(hot, isIndependent ? `${name}.2` : `${name}.3`).wire(`${name}.1`, 'output.sleeve');
  if (dice.chance(0.3)) b.capacitor(`${name}-bleed`, dice.between(100e-12, 2e-9), `${name}.3`, `${name}.2`);
  return isIndependent ? `${name}.3` : `${name}.2`;
}

function selectorPositions(throws: number): Record<string, readonly string[]> {
  const all = Array.from({ length: throws }, (_, i) => `A${i + 1}`);
  return { 1: ['A0 A1'], all: [['A0', ...all].join(' ')], last: [`A0 A${throws}`] };
}

/** Elements of every kind between arbitrary points: nothing about it need make sense at a bench. */
export function randomNetwork(seed: number): RandomCase {
  const dice = createDice(seed);
  const b = circuit();
  const points = ['output.sleeve', 'output.tip'];
  for (let i = dice.pick([2, 3, 4, 5, 6]); i > 0; i--) {
    b.metal(`x${i}`);
    points.push(`x${i}`);
  }
  const two = (): [string, string] => {
    const a = dice.pick(points);
    const rest = points.filter((point) => point !== a);
    return [a, dice.pick(rest)];
  };
  const elements = dice.pick([4, 6, 8, 10, 14]);
  for (let i = 1; i <= elements; i++) {
    const [a, c] = two();
    switch (
      i === 1
        ? 'single'
        : dice.pick([
            'single',
            'single',
            'humbucker',
            'resistor',
            'resistor',
            'capacitor',
            'capacitor',
            'inductor',
            'pot',
            'pot',
            'dual',
            'no-load',
            'buffer',
            'switch',
            'battery',
          ])
    ) {
      case 'single':
        b.single(`c${i}`, coilValues(dice)).wire(`c${i}.hot`, a).wire(`c${i}.ground`, c);
        break;
      case 'humbucker':
        b.humbucker(`h${i}`, { ...coilValues(dice), ...(dice.chance(0.5) ? { coupling: dice.pick([0.3, 0.6, -0.4]) } : {}) })
          .wire(`h${i}.hot`, a)
          .wire(`h${i}.ground`, c);
        if (dice.chance(0.4)) b.wire(`h${i}.north-finish`, dice.pick(points));
        break;
      case 'resistor':
        b.resistor(`r${i}`, dice.between(200, 1e6), a, c);
        break;
      case 'capacitor':
        b.capacitor(`k${i}`, dice.between(50e-12, 200e-9), a, c);
        break;
      case 'inductor':
        b.inductor(`l${i}`, dice.between(0.01, 5), a, c, dice.between(10, 2000));
        break;
      case 'pot':
        b.pot(`v${i}`, { ohm: dice.between(1e4, 1e6), taper: dice.pick(tapers), mid: dice.pick([0.1, 0.15, 0.3]) });
        for (const lug of ['1', '2', '3']) if (dice.chance(0.8)) b.wire(`v${i}.${lug}`, dice.pick(points));
        break;
      case 'dual':
        b.dual(`d${i}`, { taper: dice.pick(tapers) }, { ohm: 5e5, empty: 10, full: 5 });
        for (const lug of ['1a', '2a', '3a', '1b', '2b', '3b']) if (dice.chance(0.8)) b.wire(`d${i}.${lug}`, dice.pick(points));
        break;
      case 'no-load':
        b.pot(`n${i}`, { noLoad: true });
        for (const lug of ['1', '2', '3']) if (dice.chance(0.8)) b.wire(`n${i}.${lug}`, dice.pick(points));
        break;
      case 'buffer':
        // Ideal outputs only in instruments: in an arbitrary network two of them may fight.
        b.buffer(`b${i}`, { gain: dice.pick([1, 2, 0.5, -1]), output: dice.between(100, 1e4), input: dice.between(1e5, 1e7) })
          .wire(`b${i}.in`, a)
          .wire(`b${i}.out`, c)
          .wire(`b${i}.minus`, dice.pick(points));
        b.battery(`cell${i}`, `b${i}.plus`, dice.chance(0.8) ? `b${i}.minus` : dice.pick(points));
        break;
      case 'switch': {
        const [d, e] = two();
        b.switch(`s${i}`, { 1: ['A0 A1'], 2: ['A0 A1 A2'], 3: ['A0 A2'], 4: ['A1 A2'] })
          .wire(`s${i}.A0`, a)
          .wire(`s${i}.A1`, c)
          .wire(`s${i}.A2`, dice.pick([d, e]));
        break;
      }
      case 'battery':
        if (dice.chance(0.3)) b.battery(`e${i}`, a, c);
        break;
    }
  }
  b.rigged(dice.between(100e-12, 1500e-12), dice.between(1e5, 1e7));
  const made = b.build();
  return { circuit: made, setting: settingOf(dice, made) };
}
