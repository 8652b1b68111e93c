/** Assemblies that are nothing but two-lead parts side by side: drawn as one thing, since they are soldered as one. */
import {
  derivation,
  derive,
  type AnalysedCircuit,
  type Circuit,
  type LugId,
  type Part,
  type PartId,
} from '../../circuit/model.js';
import { leadedKinds, partKind } from './part-kind.js';

/** A part inside, with its lugs in the order of the assembly's own two. */
export interface NetworkMember {
  readonly part: Part;
  readonly lugs: readonly [LugId, LugId];
}

/** What the assembly is made of where each part inside lies between its two lugs; undefined for every other part. */
export function networkOf(circuit: AnalysedCircuit, part: Part): readonly NetworkMember[] | undefined {
  return derive(circuit, networks).get(part.id);
}

const networks = derivation(['text'], (circuit): ReadonlyMap<PartId, readonly NetworkMember[]> => {
  const found = circuit.parts.flatMap((part) => {
    const members = findMembers(circuit, part);
    return members === undefined ? [] : [[part.id, members] as const];
  });
  return new Map(found);
});

function findMembers(circuit: Circuit, part: Part): NetworkMember[] | undefined {
  if (part.family !== 'assembly' || part.lugs.length !== 2) return undefined;
  const children = circuit.parts.filter((child) => child.parent === part.id);
  const members = children.flatMap((child): NetworkMember[] => {
    if (!leadedKinds.has(partKind(circuit, child))) return [];
    const lugs = part.lugs.flatMap((end) => child.lugs.filter((lug) => areJoined(circuit, lug, end)));
    return lugs.length === 2 && lugs[0] !== lugs[1] ? [{ part: child, lugs: lugs as [LugId, LugId] }] : [];
  });
  return children.length > 0 && members.length === children.length ? members : undefined;
}

function areJoined(circuit: Circuit, a: LugId, b: LugId): boolean {
  return circuit.joints.some((joint) => (joint.a === a && joint.b === b) || (joint.a === b && joint.b === a));
}
