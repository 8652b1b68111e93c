/** What batteries do in one setting: which amplifier stages they feed, which diodes they open, which relays they pull. */
import type { Circuit, Drive, ElementId, Gain } from '../../circuit/model.js';
import { lazy } from '../../lazy.js';
import type { Nets } from '../model.js';
import { netOf } from './nets.js';
import { operatingPoint } from './operating-point.js';

/** A resistor up to this value in a supply lead is taken as a filter, not as a break (common practice: 100 Ω to a few kΩ). */
const smallResistor = 10_000;

/** A transistor works from this on between its ends, and any other stage behind a diode, volts: well below what either needs, well above nothing. */
const leastTransistor = 0.2;
const leastStage = 1;
/** A light-emitting diode is lit from this on, volts; a relay pulls at this share of the voltage of its battery (from memory: 70 to 75 % of its rated voltage). */
const leastLit = 1;
const relayShare = 0.5;

export interface Supply {
  /** True where batteries feed a stage the right way round. */
  feeds(gain: Gain): boolean;
  /** True where a battery drives current through a diode. */
  conducts(diode: ElementId): boolean;
  /** True where a battery brings a relay out of its rest. */
  drives(drive: Drive): boolean;
}

/** What the batteries do with lugs on these nets. */
export function createSupply(circuit: Circuit, folded: Pick<Nets, 'of'>): Supply {
  const point = lazy(() => operatingPoint(circuit, folded));
  const hasDiodes = circuit.elements.some(({ kind }) => kind === 'diode');
  return {
    feeds(gain) {
      if (gain.transistor === undefined && !hasDiodes) return hasBattery(circuit, folded, gain);
      const across = point().voltage(gain.plus) - point().voltage(gain.minus);
      if (gain.transistor === undefined) return across >= leastStage;
      return (gain.transistor === 'forward' ? across : -across) >= leastTransistor;
    },
    conducts: (diode) => point().conducting.has(diode),
    drives({ a, b, eitherWay }) {
      const across = point().voltage(a) - point().voltage(b);
      return eitherWay ? Math.abs(across) >= relayShare * point().span && across !== 0 : across >= leastLit;
    },
  };
}

/** True where batteries feed a stage the right way round. */
export function isAlive(circuit: Circuit, folded: Pick<Nets, 'of'>, gain: Gain): boolean {
  return createSupply(circuit, folded).feeds(gain);
}

/** True where a battery, or several in series, stand across the stage's plus and minus the right way round, directly or through small resistors. */
function hasBattery(circuit: Circuit, folded: Pick<Nets, 'of'>, gain: Gain): boolean {
  const plus = netOf(folded, gain.plus);
  const minus = netOf(folded, gain.minus);
  if (plus === minus) return false;
  const spent = new Set<number>();
  let frontier = reach(circuit, folded, plus, minus);
  // Each turn goes down through one more battery of a chain.
  for (;;) {
    const below = new Set<number>();
    for (const element of circuit.elements) {
      if (element.kind !== 'battery' || spent.has(element.id) || !frontier.has(netOf(folded, element.a))) continue;
      spent.add(element.id);
      const end = netOf(folded, element.b);
      if (frontier.has(end)) continue;
      const reached = reach(circuit, folded, end, plus);
      if (reached.has(minus)) return true;
      for (const net of reached) below.add(net);
    }
    if (below.size === 0) return false;
    frontier = below;
  }
}

/** Nets that small resistors join to `start`, without passing through `barred`. */
function reach(circuit: Circuit, folded: Pick<Nets, 'of'>, start: number, barred: number): Set<number> {
  const reached = new Set([start]);
  let grown = true;
  while (grown) {
    grown = false;
    for (const element of circuit.elements) {
      if (element.kind !== 'resistor' || element.resistance.value > smallResistor) continue;
      const a = netOf(folded, element.a);
      const b = netOf(folded, element.b);
      if (a === barred || b === barred || reached.has(a) === reached.has(b)) continue;
      reached.add(a).add(b);
      grown = true;
    }
  }
  return reached;
}
