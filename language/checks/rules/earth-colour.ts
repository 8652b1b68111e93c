/** Green-and-yellow wire, the colour of the protective conductor, on a signal. */
import { lugById, type LugId } from '../../circuit/model.js';
import { label, type Facts } from '../facts/index.js';
import { defineRule } from '../rule.js';

const protective = new Set(['green-yellow', 'yellow-green']);

export const earthColour = defineRule({
  id: 'earth-colour',
  severity: 'warning',
  summary: 'green-and-yellow wire on a signal',
  check(facts) {
    const { circuit } = facts;
    return circuit.joints
      .filter((joint) => joint.colour !== undefined && protective.has(joint.colour) && isSignal(facts, joint.a))
      .map((joint) => ({
        message: `green-and-yellow from ${label(circuit, joint.a)} to ${label(circuit, joint.b)} carries the signal: that colour is the protective conductor's`,
        why: 'Whoever opens the instrument next takes green-and-yellow for ground (IEC 60445). Use any other colour here.',
        range: joint.range,
        fixes: joint.colourRange ? [{ title: 'make this wire white', edits: [{ range: joint.colourRange, text: 'white' }] }] : [],
        subjects: [label(circuit, joint.a), label(circuit, joint.b)],
      }));
  },
});

/** Off ground in some position, and not merely metal that still lacks its ground wire. */
function isSignal(facts: Facts, lug: LugId): boolean {
  const { circuit, joined } = facts;
  if (circuit.output === undefined || facts.outputFault() === 'swapped') return false;
  if (facts.groups().every(({ folded }) => folded.of[lug] === folded.ground)) return false;
  return !joined.members(joined.klass(lug)).some((member) => lugById(circuit, member).metal);
}
