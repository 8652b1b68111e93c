/** Nets: lugs folded together by joints, touching metal and the contacts that are closed. */
import { type AnalysedCircuit, derive, derivation, type Circuit, lugId, type LugId } from '../../circuit/model.js';
import { createForest, createSets, filled, join, number } from '../../numerics/index.js';
import type { Nets } from '../model.js';

/** What the joints alone fold together, the same in every setting. */
export interface JointClasses {
  readonly count: number;
  /** Class of each lug. */
  readonly of: Int32Array;
}

/** Lugs folded by joints alone: where every setting starts from. */
export function jointClasses(circuit: AnalysedCircuit): JointClasses {
  return derive(circuit, classes);
}

const classes = derivation(['joints'], ({ lugs, joints, analysis }): JointClasses => {
  analysis.work?.charge('fold', lugs.length + joints.length);
  const parent = createForest(lugs.length);
  for (const joint of joints) join(parent, joint.a, joint.b);
  const of = new Int32Array(lugs.length);
  return { count: number(parent, of), of };
});

/**
 * Lugs folded into nets for one choice of switch positions (an index per switch): joints and closed contacts, never elements.
 * A switch without an entry, or with one it does not have, joins nothing.
 */
export function nets(circuit: AnalysedCircuit, positions: readonly number[]): Nets {
  circuit.analysis.work?.charge('fold', circuit.lugs.length);
  const classes = jointClasses(circuit);
  const parent = createSets(classes.count);
  for (const device of circuit.switches) {
    const position = device.positions[positions[device.id] ?? -1];
    if (position === undefined) continue;
    for (const contact of position.joins) {
      const [first] = contact;
      if (first === undefined) continue;
      for (const other of contact) join(parent, netOf(classes, first), netOf(classes, other));
    }
  }
  const netOfClass = filled(classes.count, 0);
  const count = number(parent, netOfClass);
  const of = new Int32Array(circuit.lugs.length);
  // By number: pairs of number and value, one for each lug and setting, were a fifteenth of all that a check allocates.
  for (let lug = 0; lug < of.length; lug++) of[lug] = netOfClass[classes.of[lug] ?? -1] ?? -1;
  const { output } = circuit;
  if (output === undefined) return { count, of, ground: -1, tip: -1 };
  return { count, of, ground: netOf({ of }, output.sleeve), tip: netOf({ of }, output.tip) };
}

/** The net of a lug. A lug of another circuit is a bug, and throws. */
export function netOf({ of }: Pick<Nets, 'of'>, lug: LugId): number {
  const net = of[lug];
  if (net === undefined) throw new Error(`These nets have no lug with the id ${lug}`);
  return net;
}

/** Lugs of each net, in order of id. */
export function netMembers(folded: Nets): readonly (readonly LugId[])[] {
  const members: LugId[][] = Array.from({ length: folded.count }, () => []);
  folded.of.forEach((net, lug) => members[net]?.push(lugId(lug)));
  return members;
}

/** The lugs of one net by name, at most `most` of them, as a message names a net. */
export function netLabel(circuit: Circuit, folded: Nets, net: number, most = 4): string {
  const labels = circuit.lugs.filter((lug) => folded.of[lug.id] === net).map((lug) => lug.label);
  return labels.length > most ? `${labels.slice(0, most).join(', ')} and ${labels.length - most} more` : labels.join(', ');
}
