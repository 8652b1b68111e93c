/** What version 0.1 made of a circuit, where that was something else: for telling that a claim held by its count, and for nothing else. */
import { altered, type AnalysedCircuit, type Coil, type Element } from '../circuit/model.js';
import { magnitude } from '../numerics/index.js';
import type { Setting, Sound } from './model.js';
import { coupledPairs } from './network/coupling.js';
import { nets } from './network/nets.js';
import { createNetwork } from './network/network.js';
import { outputOf, solveNetwork } from './solver/solver.js';

/** Hum counted as cancelled below this share of the sum of its magnitudes. */
const cancelledBelow = 1 / 4;
/** What the windings of a tapped coil are coupled by where the text says nothing; version 0.1 had none. */
const usualTap = 0.98;

/** Hum as version 0.1 had it: each coil weighed by its `output`, and 100 % where that is 0. */
export function earlierHum(circuit: AnalysedCircuit, setting: Setting): Sound['hum'] {
  const solver = solveNetwork(createNetwork(circuit, nets(circuit, setting.positions), setting), false);
  if (solver.problem !== undefined) return 'none';
  const transfers = solver.transfers(100);
  let [re, im, all] = [0, 0, 0];
  for (const [i, id] of solver.coils.entries()) {
    const coil = circuit.elements[id];
    if (coil?.kind !== 'coil') continue;
    const [x, y] = [transfers.re[i] ?? 0, transfers.im[i] ?? 0];
    const weight = outputOf(coil) === 0 ? 1 : outputOf(coil);
    re += weight * coil.winding * x;
    im += weight * coil.winding * y;
    all += weight * magnitude(x, y);
  }
  if (!(all > 0)) return 'none';
  return magnitude(re, im) < cancelledBelow * all ? 'cancelled' : 'present';
}

/**
 * The circuit with the inductances of version 0.1, or nothing where they are the same. There a coil had its share of the turns of the stated inductance,
 * and a stated coupling was that of the currents from start to finish, so that it lowered the whole in the usual series connection.
 */
export function withEarlierInductances(circuit: AnalysedCircuit): AnalysedCircuit | undefined {
  const earlier = new Map<number, Element>();
  for (const { first, second, factor } of coupledPairs(circuit)) {
    if (first.kind !== 'coil' || second.kind !== 'coil') continue;
    const [one, other] = [Math.sqrt(first.inductance.value), Math.sqrt(second.inductance.value)];
    const coupling = first.coupling ?? 0;
    const whole = one * one + other * other + 2 * coupling * one * other;
    // Where the signs of both coils make the factor minus the coupling, the same number now means the opposite.
    const turned = coupling === 0 ? 0 : coupling * Math.sign(factor * coupling);
    const coil = (own: Coil, root: number): Coil => ({
      ...own,
      inductance: { ...own.inductance, value: (whole * root) / (one + other) },
      coupling: isTap(first, second) && coupling === usualTap ? 0 : turned,
    });
    earlier.set(first.id, coil(first, one)).set(second.id, coil(second, other));
  }
  if (earlier.size === 0) return undefined;
  return altered(circuit, { elements: circuit.elements.map((element) => earlier.get(element.id) ?? element) });
}

/** Two windings of one core meet at the tap and run on in one sense; the coils of a two-coil pickup lie over opposite poles. */
function isTap(first: Coil, second: Coil): boolean {
  return first.b === second.a && first.magnet === second.magnet;
}
