/** Green-and-yellow wire, the colour of the protective conductor, on a signal. */
import { lugById, type LugId } from '../../circuit/model.js';
import { lugLabel, placeOfJoint, type Facts } from '../facts/index.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

const protective = new Set(['green-yellow', 'yellow-green']);

interface Claim extends Statement {
  readonly subjects: { readonly ends: readonly [string, string] };
}

export const earthColour = defineRule<Claim>({
  id: 'earth-colour',
  severity: 'warning',
  summary: 'green-and-yellow wire on a signal',
  readsLooks: true,
  describe: ({ subjects: { ends } }) =>
    `The green-and-yellow wire from ${ends[0]} to ${ends[1]} carries the signal: that colour is reserved for the protective conductor`,
  check(facts) {
    const { circuit } = facts;
    return circuit.joints
      .filter((joint) => joint.colour !== undefined && protective.has(joint.colour) && isSignal(facts, joint.a))
      .map((joint) => ({
        claim: { subjects: { ends: [lugLabel(circuit, joint.a), lugLabel(circuit, joint.b)] } },
        why: 'Whoever opens the instrument next will take green-and-yellow for ground (IEC 60445). Use any other colour here.',
        range: placeOfJoint(circuit, joint),
        fixes: joint.colourRange ? [{ title: 'make this wire white', edits: [{ range: joint.colourRange, text: 'white' }] }] : [],
        subjects: [lugLabel(circuit, joint.a), lugLabel(circuit, joint.b)],
      }));
  },
});

/** Off ground in some position, and not merely metal that still lacks its ground wire. */
function isSignal(facts: Facts, lug: LugId): boolean {
  const { circuit, joined } = facts;
  if (circuit.output === undefined || facts.outputFault() === 'swapped') return false;
  if (facts.groups().every(({ folded }) => folded.of[lug] === folded.ground)) return false;
  return !joined.members(joined.classOf(lug)).some((member) => lugById(circuit, member).metal);
}
