/** A wire between lugs on which nothing else ends: throws of one pole, splices, tags. */
import { formOf, type Joint } from '../../circuit/model.js';
import { removeStatement } from '../edits.js';
import { lugLabel, placeOfJoint, type Facts } from '../facts/index.js';
import { isCarrier } from '../facts/wiring/leads.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly ends: readonly [string, string] };
}

export const idleWire = defineRule<Claim>({
  id: 'idle-wire',
  severity: 'warning',
  summary: 'a wire between lugs on which nothing else ends',
  describe: ({ subjects: { ends } }) => `The wire from ${ends[0]} to ${ends[1]} connects nothing: no part ends on it`,
  check(facts) {
    const { circuit, signal, joined, unread } = facts;
    // A lead that is missing elsewhere is reported as such, and may be meant for here.
    if (unread.any || facts.isBroken() || (facts.outputFault() === undefined && signal.neverHeard().size > 0)) return [];
    const judged = new Set<number>();
    return circuit.joints.flatMap((joint) => {
      const classId = joined.classOf(joint.a);
      if (formOf(joint) !== 'wire' || joint.a === joint.b || judged.has(classId)) return [];
      judged.add(classId);
      if (!isIdle(facts, joint)) return [];
      const [a, b] = [lugLabel(circuit, joint.a), lugLabel(circuit, joint.b)];
      const edits = removeStatement(circuit, joint);
      return [
        {
          claim: { subjects: { ends: [a, b] } },
          why: 'A jumper between throws is useful only with a lead on one of them. Perhaps that lead, or an end of this wire, is on a neighbouring lug.',
          range: placeOfJoint(circuit, joint),
          fixes: edits ? [{ title: 'take out this wire', edits }] : [],
          subjects: [a, b],
        },
      ];
    });
  },
});

/** Throws of one pole that are joined to each other and to nothing else change nothing; throws of two poles may be a link. */
function isIdle(facts: Facts, joint: Joint): boolean {
  const members = facts.joined.members(facts.joined.classOf(joint.a)).filter((lug) => !isCarrier(facts.circuit, lug));
  if (members.length === 0) return true;
  return facts.poles().some((pole) => pole.common !== undefined && members.every((lug) => pole.throws.includes(lug)));
}
