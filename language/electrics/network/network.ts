/** The network of one setting: branches between nodes, with everything that has no impedance folded away. */
import type { Circuit, Gain } from '../../circuit/model.js';
import { createSets, filled, join, number } from '../../numerics/index.js';
import type { Nets, Setting } from '../model.js';
import { type Branch, branchesOf } from './branches.js';
import { isAlive } from './supply.js';

/** An amplifier stage that works: its input and output against `minus`, by node. */
export interface Stage {
  readonly gain: Gain;
  readonly input: number;
  readonly output: number;
  readonly minus: number;
}

export interface Network {
  readonly circuit: Circuit;
  readonly nets: Nets;
  /** Number of nodes; nets that a branch without impedance joins are one node. */
  readonly count: number;
  /** Node of each net. */
  readonly nodeOf: readonly number[];
  /** −1 where there is no jack. */
  readonly ground: number;
  readonly tip: number;
  /** Branches that have an impedance and two different ends, and the nodes of their ends. */
  readonly branches: readonly Branch[];
  readonly from: readonly number[];
  readonly to: readonly number[];
  readonly stages: readonly Stage[];
}

/** Network for signals: batteries are shorts, stages with a supply amplify, the lead and the amplifier hang on the jack. */
export function createNetwork(circuit: Circuit, folded: Nets, setting: Setting): Network {
  return networkOf(circuit, folded, branchesOf(circuit, setting.rotations));
}

/** The same of branches that are at hand. */
export function networkOf(circuit: Circuit, folded: Nets, all: readonly Branch[]): Network {
  circuit.work?.charge('branch', all.length + folded.count);
  const parent = createSets(folded.count);
  const alive = new Set<number>();
  for (const branch of all) {
    if (branch.of === 'output' && isAlive(circuit, folded, circuit.elements[branch.element] as Gain)) alive.add(branch.element);
    if (isJoint(branch) && !alive.has(branch.element)) join(parent, folded.of[branch.a]!, folded.of[branch.b]!);
  }
  const nodeOf = filled(folded.count, 0);
  const count = number(parent, nodeOf);
  const node = (lug: number): number => nodeOf[folded.of[lug]!]!;
  const branches: Branch[] = [];
  const from: number[] = [];
  const to: number[] = [];
  const stages: Stage[] = [];
  for (const branch of all) {
    if (branch.of === 'output' && alive.has(branch.element)) {
      const gain = circuit.elements[branch.element] as Gain;
      stages.push({ gain, input: node(gain.a), output: node(gain.b), minus: node(gain.minus) });
      continue;
    }
    const a = node(branch.a);
    const b = node(branch.b);
    // A coupled coil that is shorted still loads its neighbour.
    if (isJoint(branch) || (a === b && !isCoupled(circuit, branch))) continue;
    branches.push(branch);
    from.push(a);
    to.push(b);
  }
  const at = (net: number): number => (net < 0 ? -1 : nodeOf[net]!);
  return { circuit, nets: folded, count, nodeOf, ground: at(folded.ground), tip: at(folded.tip), branches, from, to, stages };
}

/** A battery has no impedance for signals, and neither has a dead output stage of none. */
function isJoint(branch: Branch): boolean {
  return branch.kind === 'join' || branch.kind === 'battery' || (branch.kind === 'resistor' && branch.ohm === 0);
}

function isCoupled(circuit: Circuit, branch: Branch): boolean {
  const element = branch.kind === 'winding' ? circuit.elements[branch.element] : undefined;
  return element?.kind === 'coil' && (element.coupling ?? 0) !== 0;
}
