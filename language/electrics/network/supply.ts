/** Whether an amplifier stage has a battery: plus on plus, minus on minus, directly or through small resistors. */
import type { Circuit, Gain } from '../../circuit/model.js';
import type { Nets } from '../model.js';
import { netOf } from './nets.js';

/** A resistor up to this value in a supply lead is taken as a filter, not as a break (common practice: 100 Ω to a few kΩ). */
const smallResistor = 10_000;

/** True where a battery, or several in series, stand across the stage's plus and minus the right way round. */
export function isAlive(circuit: Circuit, folded: Pick<Nets, 'of'>, gain: Gain): boolean {
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
