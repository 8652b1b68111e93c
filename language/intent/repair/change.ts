/** What one repair does to the joints, and the circuit that comes of it. */
import {
  altered,
  lugById,
  partById,
  partOfLug,
  type AnalysedCircuit,
  type Circuit,
  type Joint,
  type LugId,
  type PartId,
  usualOutput,
} from '../../circuit/model.js';
import { unwritten, type Mention } from './wiring.js';
import { itemAt } from '../../collections.js';

/** A lug written in place of another. */
export interface Move {
  readonly mention: Mention;
  readonly to: LugId;
}

/**
 * `move`: one end goes to another lug. `exchange`: two ends change places. `turn`: everything on some lugs of one part changes places with
 * everything on others (a part, a pickup's leads, the two ends of a track, rows seen from the wrong side). `remove`, `add`: one run.
 */
export type Change = Moving | Exchange | Turn | Removal | Addition;

interface AnyChange {
  readonly moves: readonly Move[];
  readonly removes?: Joint;
  readonly adds?: readonly [LugId, LugId];
  /** How unlikely such a mistake is, from 1 up: fewest lugs away on the same part first. */
  readonly cost: number;
}

interface Moving extends AnyChange {
  readonly kind: 'move';
  readonly moves: readonly [Move];
}

interface Exchange extends AnyChange {
  readonly kind: 'exchange';
  readonly moves: readonly [Move, Move];
}

export interface Turn extends AnyChange {
  readonly kind: 'turn';
  /** The part that is turned. */
  readonly part: PartId;
}

interface Removal extends AnyChange {
  readonly kind: 'remove';
  readonly removes: Joint;
}

interface Addition extends AnyChange {
  readonly kind: 'add';
  readonly adds: readonly [LugId, LugId];
}

/** The circuit with these changes made, one after the other. Nothing is lowered again; lugs keep their ids. */
export function rewired(circuit: AnalysedCircuit, changes: readonly Change[]): AnalysedCircuit {
  circuit.analysis.work?.charge('fold', circuit.joints.length);
  const joints = circuit.joints.slice();
  const removed = new Set<number>();
  let next = joints.reduce((most, { id }) => Math.max(most, id), -1) + 1;
  for (const change of changes) {
    for (const { mention, to } of change.moves) {
      for (const { joint, side } of mention.ends) joints[joint] = { ...itemAt(joints, joint), [side]: to };
    }
    if (change.removes !== undefined) for (const joint of goneWith(circuit, change.removes)) removed.add(joint.id);
    if (change.adds !== undefined) joints.push(added(circuit, next++, change.adds));
  }
  const left = removed.size === 0 ? joints : joints.filter((joint) => !removed.has(joint.id));
  const output = circuit.jacks.length > 1 ? usualOutput({ ...circuit, joints: left }) : undefined;
  // What hangs on the output alone stays known where it is the same.
  const isMoved = output !== undefined && output.tip !== circuit.output?.tip;
  return altered(circuit, { joints: left, ...(isMoved ? { output } : {}) });
}

/** A run, and the ties of its own screen. */
export function goneWith(circuit: Circuit, run: Joint): readonly Joint[] {
  if (run.screen === undefined) return [run];
  return [run, ...circuit.joints.filter(({ kind, a }) => kind === 'screen' && a === run.screen)];
}

/** The metal of a run's screen, which its own statement ties. */
export function isScreen(circuit: Circuit, lug: LugId): boolean {
  return partOfLug(circuit, lug).family === 'screen';
}

/** A lug of a pot is bent onto its own case; everything else takes a wire. */
export function isBentOver(circuit: Circuit, a: LugId, b: LugId): boolean {
  const [one, other] = [lugById(circuit, a), lugById(circuit, b)];
  return one.part === other.part && one.metal !== other.metal && partById(circuit, one.part).family === 'control';
}

function added(circuit: Circuit, id: number, [a, b]: readonly [LugId, LugId]): Joint {
  const [aRange, bRange] = [partOfLug(circuit, a).nameRange, partOfLug(circuit, b).nameRange];
  const looks = { bare: false, twisted: false, shielded: false, ownLead: false };
  const kind = isScreen(circuit, a) ? 'screen' : isBentOver(circuit, a, b) ? 'solder' : 'wire';
  return { id, kind, a, b, statement: unwritten, ...looks, range: aRange, aRange, bRange, statementRange: aRange };
}
