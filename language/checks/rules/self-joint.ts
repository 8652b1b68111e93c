/** A wire from a lug to itself. */
import { removeStatement } from '../edits.js';
import { label } from '../facts/index.js';
import { defineRule } from '../rule.js';

export const selfJoint = defineRule({
  id: 'self-joint',
  severity: 'error',
  summary: 'a wire from a lug to itself',
  check({ circuit }) {
    return circuit.joints
      .filter((joint) => joint.a === joint.b && (joint.kind === 'wire' || joint.kind === 'solder'))
      .map((joint) => {
        const name = label(circuit, joint.a);
        const edits = removeStatement(circuit, joint);
        return {
          message: `this wire runs from ${name} to itself: it joins nothing`,
          why: 'One of its ends was meant for another lug.',
          range: joint.range,
          fixes: edits ? [{ title: 'take out this wire', edits }] : [],
          subjects: [name],
        };
      });
  },
});
