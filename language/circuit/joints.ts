/** What a joint is by the statement that makes it, wherever that statement stands: in the instrument or in the type of an assembly. */
import type { Joint } from './circuit.js';
import type { LugId, PartId } from './ids.js';

/** Whether a statement makes the joint with a wire or by soldering lug to lug; nothing for metal that touches, and for a screen. */
export function formOf({ kind, form }: Joint): 'wire' | 'solder' | undefined {
  if (kind === 'inside') return form;
  return kind === 'wire' || kind === 'solder' ? kind : undefined;
}

/** True for a joint that comes with the part, made in its own type: it says nothing about whether someone has wired the part. */
export function isBuiltIn({ kind, holder }: Joint, part: PartId): boolean {
  return kind === 'inside' && (holder === undefined || holder === part);
}

/** The other end of a wire. */
export function farEnd(joint: Joint, lug: LugId): LugId {
  return joint.a === lug ? joint.b : joint.a;
}
