/** Nets that nothing can tell apart: what was solved on the ones holds on the others, whatever joints fold them. */
import {
  type AnalysedCircuit,
  type Circuit,
  derive,
  derivation,
  elementById,
  type LugId,
  partById,
} from '../../circuit/model.js';
import { createSets, filled, join, rootOf } from '../../numerics/index.js';
import type { Nets } from '../model.js';

/**
 * Equal for two circuits of the same elements where these nets are the same to every element from which something can reach the tip. What
 * nothing but ground ties to the tip is neither heard nor read there. Empty without a jack, and where tip and sleeve are one net.
 */
export function netsKey(circuit: AnalysedCircuit, { of, count, ground, tip }: Nets): string {
  if (tip === ground) return '';
  const { lugs, ties } = derive(circuit, noticed);
  circuit.analysis.work?.charge('key', count + lugs.length + ties.length);
  const reach = createSets(count);
  for (const tied of ties) {
    let first = -1;
    for (const lug of tied) {
      const net = of[lug] ?? -1;
      if (net === ground) continue;
      if (first < 0) first = net;
      else join(reach, first, net);
    }
  }
  const live = rootOf(reach, tip);
  const letters = filled(count, 0);
  letters[ground] = 1;
  letters[tip] = 2;
  let last = 3;
  const key = lugs.map((lug) => {
    const net = of[lug] ?? -1;
    return (letters[net] ||= rootOf(reach, net) === live ? ++last : 3);
  });
  return String.fromCharCode(...key);
}

const noticed = derivation(['elements'], (circuit) => ({ lugs: lugsOfElements(circuit), ties: tiesOf(circuit) }));

/** Lugs at which an element could notice a difference. */
export function lugsOfElements(circuit: Circuit): readonly LugId[] {
  const lugs = new Set<LugId>();
  for (const element of circuit.elements) {
    lugs.add(element.a).add(element.b);
    if (element.kind === 'track') {
      lugs.add(element.wiper);
      if (element.leavesTo !== undefined) lugs.add(element.leavesTo);
    }
    if (element.kind === 'gain')
      lugs
        .add(element.plus)
        .add(element.minus)
        .add(element.inverting ?? element.minus);
  }
  return [...lugs];
}

/** Lugs that an element ties to each other; coupled windings feel each other wherever they are. */
export function tiesOf(circuit: Circuit): readonly (readonly LugId[])[] {
  return circuit.elements.map((element) => {
    switch (element.kind) {
      case 'track':
        return [element.a, element.wiper, element.leavesTo ?? element.b];
      case 'gain':
        return [element.a, element.b, element.plus, element.minus, element.inverting ?? element.minus];
      case 'inductor':
      case 'coil': {
        const others = partById(circuit, element.part).elements.map((id) => elementById(circuit, id));
        return (element.coupling ?? 0) === 0 ? [element.a, element.b] : others.flatMap(({ a, b }) => [a, b]);
      }
      default:
        return [element.a, element.b];
    }
  });
}
