/** Which wires are a part's own leads: they come with the part, at a length of their own. */
import type { Circuit, Joint, Lead, Lug, Part } from './circuit.js';
import { lugById, partOfLug, type LugId } from './ids.js';

/** What has to be looked up of a lug. */
export interface LugLookup {
  lug(this: void, id: LugId): Pick<Lug, 'name'>;
  /** The part that a lug is on. */
  partAt(this: void, lug: LugId): Pick<Part, 'family' | 'leads'>;
}

/** Looks lugs up in a circuit. */
export function lugLookup(circuit: Pick<Circuit, 'lugs' | 'parts'>): LugLookup {
  return { lug: (id) => lugById(circuit, id), partAt: (id) => partOfLug(circuit, id) };
}

/** A pickup's own lead (or a clip's): declared so, or a wire of which nothing is said from a pickup that declares no lead at all, or from its cable's shield. */
export function isOwnLead(lookup: LugLookup, joint: Joint): boolean {
  if (joint.kind !== 'wire') return false;
  if (joint.ownLead) return true;
  // A braid says that it is the pickup's own: nobody braids a wire off the reel.
  const isMade = (joint.make ?? []).some((make) => make !== 'braided');
  const isPlain =
    joint.colour === undefined && joint.gauge === undefined && joint.length === undefined && !joint.shielded && !isMade;
  return isPlain && leadEnd(lookup, joint) !== undefined;
}

/** Metres of a wire that the text states: in its own statement, or of a part's own lead where the part declares it. */
export function statedLength(lookup: LugLookup, joint: Joint): number | undefined {
  if (joint.length !== undefined) return joint.length;
  return isOwnLead(lookup, joint) ? leadOf(lookup, joint)?.length : undefined;
}

/** What the part's statement says of an own lead. */
export function leadOf(lookup: LugLookup, joint: Joint): Lead | undefined {
  const end = leadEnd(lookup, joint);
  return end === undefined ? undefined : lookup.partAt(end).leads?.find((lead) => lead.lug === end);
}

/** The end of a wire at which it is the part's own: the pickup's or clip's side. */
export function leadEnd({ partAt, lug: lugOf }: LugLookup, joint: Joint): LugId | undefined {
  return [joint.a, joint.b].find((lug) => {
    const part = partAt(lug);
    if (part.leads?.some((lead) => lead.lug === lug) === true) return true;
    if (part.family !== 'pickup' || joint.ownLead) return false;
    // The shield of a pickup's cable comes with the cable, whether the text declares a lead for it or not.
    return (part.leads ?? []).length === 0 || lugOf(lug).name === 'shield';
  });
}
