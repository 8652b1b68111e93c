/** The levels of one setting with one shaft after another turned: what turning a shaft does not reach is solved once. */
import {
  derive,
  derivation,
  shaftById,
  type AnalysedCircuit,
  type ElementId,
  type LugId,
  type ShaftId,
  type Track,
} from '../../circuit/model.js';
import { branchesOf, trackHalves, type Branch } from '../network/branches.js';
import { solvedHz, type Levels } from './control-levels.js';
import { createFactors, type Changeable } from '../../numerics/index.js';
import type { Nets, Setting } from '../model.js';
import { networkOf, nodeOfLug, type Network } from '../network/network.js';
import { createReader } from './read-levels.js';
import { createSystem, equationsOf, type System, unknownAt } from '../network/system.js';

export interface RotationSolver {
  /** True where the shaft can be turned here; one whose wiper leaves its track changes what the network is. */
  canTurn(shaft: ShaftId): boolean;
  /** Levels with the shaft at this rotation and all others as they stand; with everything as it stands where none is given. `undefined` where elimination in this order would lose figures. */
  levels(shaft?: ShaftId, rotation?: number): Levels | undefined;
}

/** Where the levels are compared, in radians a second. */
const omega = Float64Array.from(solvedHz, (hz) => 2 * Math.PI * hz);

/**
 * Prepares a setting for turning its shafts. The equations are those of the solver (nodal analysis of the adjoint network), but the wiper of
 * every track keeps a node of its own; at an end of its travel it joins by adding its equation to the other's, which is exact.
 * `undefined` where that is not enough: without an output, with amplifier stages at work, with coils that share a field or have no impedance.
 */
export function createRotationSolver(circuit: AnalysedCircuit, folded: Nets, setting: Setting): RotationSolver | undefined {
  const { tracks: turned, halvesOf } = derive(circuit, turnable);
  const all = branchesOf(circuit, setting.rotations);
  const halves = all.filter(({ element }) => turned.has(element));
  const network = splitNetwork(circuit, folded, all, halves);
  if (network.ground < 0 || network.ground === network.tip || network.stages.length > 0) return undefined;
  const system = createSystem(network, [network.ground, network.tip], { beyond: false, apart: turned });
  const tip = unknownAt(system, network.tip);
  if (tip < 0 || !system.isReciprocal || system.currents.length > 0 || hasPair(system.sources)) return undefined;
  const place = (lug: LugId): number => {
    const node = nodeOfLug(network, lug);
    return system.within[node] === 0 ? outside : unknownAt(system, node);
  };
  // A half of a track that hangs in the air, or on one net with both ends, has no part in the equations.
  const changeable = (half: Branch): readonly Changeable[] => {
    const [a, b] = [place(half.a), place(half.b)];
    return a === b || a === outside || b === outside ? [] : [{ of: nameOf(half), a, b, ohm: half.ohm }];
  };
  circuit.analysis.work?.charge('plan', system.size ** 2);
  const factors = createFactors(equationsOf(system), halves.flatMap(changeable), tip, omega, (entries) => {
    circuit.analysis.work?.charge('entry', entries);
  });
  const reader = createReader(circuit, system, factors);
  return {
    canTurn: (shaft) => shaftById(circuit, shaft).tracks.every((id) => turned.has(id)),
    levels(shaft, rotation = 10) {
      const changed = shaft === undefined ? [] : halvesOf(shaft, rotation).flatMap(changeable);
      return changed.length === 0 ? reader.first() : factors.solve(changed, reader.changed);
    },
  };
}

/** True where a coil drives more than its own winding, because it shares a field. */
function hasPair(sources: System['sources']): boolean {
  return new Set(sources.map(({ coil }) => coil)).size < sources.length;
}

/** A node that is in no equation. */
const outside = -2;

/** The two halves of a track by number. */
function nameOf({ element, of }: Branch): number {
  return 2 * element + (of === 'upper' ? 1 : 0);
}

interface Turnable {
  /** Tracks of the shafts of which no wiper leaves its track and none is open from end to end. */
  readonly tracks: ReadonlySet<ElementId>;
  halvesOf(shaft: ShaftId, rotation: number): readonly Branch[];
}

const turnable = derivation(['elements', 'values', 'rests'], (circuit): Turnable => {
  const isPlain = (id: ElementId): boolean => {
    const { leavesTo, resistance } = circuit.elements[id] as Track;
    return leavesTo === undefined && Number.isFinite(resistance.value);
  };
  const halves = new Map<string, readonly Branch[]>();
  return {
    tracks: new Set(circuit.shafts.flatMap(({ tracks }) => (tracks.every(isPlain) ? tracks : []))),
    halvesOf(shaft: ShaftId, rotation: number): readonly Branch[] {
      const key = `${shaft} ${rotation}`;
      const found =
        halves.get(key) ?? shaftById(circuit, shaft).tracks.flatMap((id) => trackHalves(circuit.elements[id] as Track, rotation));
      halves.set(key, found);
      return found;
    },
  };
});

/** The network in which each of these halves of a track stands as a branch, wherever its wiper is. */
function splitNetwork(circuit: AnalysedCircuit, folded: Nets, all: readonly Branch[], halves: readonly Branch[]): Network {
  const taken = new Set(halves);
  const network = networkOf(
    circuit,
    folded,
    all.filter((branch) => !taken.has(branch)),
  );
  const split = halves.map((branch) => ({ branch, from: nodeOfLug(network, branch.a), to: nodeOfLug(network, branch.b) }));
  return { ...network, branches: [...network.branches, ...split.filter(({ from, to }) => from !== to)] };
}
