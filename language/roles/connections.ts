/** What a lug is connected to outside its part, in more words than its side: the joint between two coils, the battery, another lug of the same part. */
import { type AnalysedCircuit, type Element, lugById, type LugId, partById } from '../circuit/model.js';
import { groupBy } from '../collections.js';
import { surroundingsOf, type Side, type Surroundings } from './surroundings.js';

/**
 * A side, or one of these. `link`: where two coils of a pickup meet. `supply`: a lead of a battery. `own`: another lug of the same part and nothing else.
 * `wiper` and `end`, of a part that lies across one track: its wiper, and an end of it that is not on ground.
 */
export type Connection = Side | 'link' | 'supply' | 'own' | 'wiper' | 'end';

/** One lug, with what it is connected to. */
export interface Connected {
  readonly lug: LugId;
  readonly is: Connection;
}

/** A lug that is connected to something else than usual. */
export interface Departure extends Connected {
  readonly usually: Connection;
}

/** What a lug is connected to; where it is a switch's, what lies behind the switch's own contacts doesn't count. */
export function connectionOf(circuit: AnalysedCircuit, lug: LugId): Connection {
  const around = surroundingsOf(circuit);
  const classId = around.classOf(lug);
  if (classId === around.ground) return 'ground';
  if (isLink(around, classId)) return 'link';
  const { part } = lugById(circuit, lug);
  const own = circuit.switches.find((device) => device.part === part)?.id;
  if (around.isSupplied(classId, own)) return 'supply';
  const members = around.members(classId).filter((other) => !isSplice(circuit, other));
  // The lugs of a pot that has a switch as well are another thing than the switch's.
  const isOnTrack = around.elementsOn(classId).some(({ kind }) => kind === 'track');
  if (members.length > 1 && !isOnTrack && members.every((other) => lugById(circuit, other).part === part)) return 'own';
  return around.sideOf(lug, own);
}

/** True where two coils of one pickup meet in series: in parallel their other ends meet as well. */
function isLink({ classOf, elementsOn }: Surroundings, classId: number): boolean {
  const coils = elementsOn(classId).filter(({ kind }) => kind === 'coil');
  const far = ({ a, b }: Element): number => classOf(classOf(a) === classId ? b : a);
  return [...groupBy(coils, ({ part }) => part).values()].some((own) => new Set(own.map(far)).size > 1);
}

/** True for a lug of a splice in mid air, which is nothing that a lug leads to. */
export function isSplice(circuit: AnalysedCircuit, lug: LugId): boolean {
  return partById(circuit, lugById(circuit, lug).part).ancestry.includes('junction');
}
