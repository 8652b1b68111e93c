/** The network of one setting: branches between nodes, with everything that has no impedance folded away. */
import { elementById, type AnalysedCircuit, type Circuit, type Gain, type LugId } from '../../circuit/model.js';
import { createSets, filled, join, number } from '../../numerics/index.js';
import type { Nets, Setting } from '../model.js';
import { type Branch, branchesOf } from './branches.js';
import { netOf } from './nets.js';
import type { Section } from './sections.js';
import { createSupply, type Supply } from './supply.js';

/** An amplifier stage that works: its input and output against `minus`, by node. */
export interface Stage {
  readonly gain: Gain;
  readonly input: number;
  readonly output: number;
  readonly minus: number;
  /** Node against which the input is amplified. */
  readonly reference: number;
  readonly sections: readonly Section[];
}

/** A branch and the nodes of its ends. */
export interface PlacedBranch {
  readonly branch: Branch;
  readonly from: number;
  readonly to: number;
}

export interface Network {
  readonly circuit: AnalysedCircuit;
  readonly nets: Nets;
  /** Number of nodes; nets that a branch without impedance joins are one node. */
  readonly count: number;
  /** Node of each net. */
  readonly nodeOf: readonly number[];
  /** −1 where there is no jack. */
  readonly ground: number;
  readonly tip: number;
  /** Branches that have an impedance and two different ends. */
  readonly branches: readonly PlacedBranch[];
  readonly stages: readonly Stage[];
}

/** Network for signals: batteries are shorts, stages with a supply amplify, the lead and the amplifier hang on the jack. */
export function createNetwork(circuit: AnalysedCircuit, folded: Nets, setting: Setting): Network {
  return networkOf(circuit, folded, branchesOf(circuit, setting.rotations));
}

/** The same of branches that are at hand. */
export function networkOf(circuit: AnalysedCircuit, folded: Nets, all: readonly Branch[]): Network {
  circuit.analysis.work?.charge('branch', all.length + folded.count);
  const parent = createSets(folded.count);
  const supply = createSupply(circuit, folded);
  const live = new Map<Branch, Gain>();
  for (const branch of all) {
    const gain = liveStage(circuit, supply, branch);
    if (gain !== undefined) live.set(branch, gain);
    else if (isJoint(branch)) join(parent, netOf(folded, branch.a), netOf(folded, branch.b));
  }
  const nodeOf = filled(folded.count, 0);
  const count = number(parent, nodeOf);
  const node = (lug: LugId): number => nodeOfNet(nodeOf, netOf(folded, lug));
  const branches: PlacedBranch[] = [];
  const stages: Stage[] = [];
  for (const branch of all) {
    const gain = live.get(branch);
    if (gain !== undefined) {
      const { a, b, minus, inverting = minus } = gain;
      stages.push({
        gain,
        input: node(a),
        output: node(b),
        minus: node(minus),
        reference: node(inverting),
        sections: branch.sections,
      });
      continue;
    }
    const [from, to] = [node(branch.a), node(branch.b)];
    // A coupled coil that is shorted still loads its neighbour.
    if (branch.kind === 'diode' && !supply.conducts(branch.element)) continue;
    if (isJoint(branch) || (from === to && !isCoupled(circuit, branch))) continue;
    branches.push({ branch, from, to });
  }
  const [ground, tip] = [nodeOfNet(nodeOf, folded.ground), nodeOfNet(nodeOf, folded.tip)];
  return { circuit, nets: folded, count, nodeOf, ground, tip, branches, stages };
}

/** The node that a lug is on. */
export function nodeOfLug({ nets: folded, nodeOf }: Pick<Network, 'nets' | 'nodeOf'>, lug: LugId): number {
  return nodeOfNet(nodeOf, netOf(folded, lug));
}

/** −1 is the net of a jack that is not there. */
function nodeOfNet(nodeOf: readonly number[], net: number): number {
  return nodeOf[net] ?? -1;
}

/** The amplifier stage at work of which this branch is the output. */
function liveStage(circuit: Circuit, supply: Supply, { of, element }: Branch): Gain | undefined {
  if (of !== 'output') return undefined;
  const gain = elementById(circuit, element);
  return gain.kind === 'gain' && supply.feeds(gain) ? gain : undefined;
}

/** A battery has no impedance for signals, and neither has a output stage without supply and without resistance. */
function isJoint(branch: Branch): boolean {
  return branch.kind === 'join' || branch.kind === 'battery' || (branch.kind === 'resistor' && branch.ohm === 0);
}

function isCoupled(circuit: Circuit, branch: Branch): boolean {
  const element = branch.kind === 'winding' ? circuit.elements[branch.element] : undefined;
  return (element?.kind === 'coil' || element?.kind === 'inductor') && (element.coupling ?? 0) !== 0;
}
