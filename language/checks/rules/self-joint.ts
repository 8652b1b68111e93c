/** A wire from a lug to itself. */
import { formOf } from '../../circuit/model.js';
import { removeStatement } from '../edits.js';
import { lugLabel, placeOfJoint } from '../facts/index.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly lug: string };
}

export const selfJoint = defineRule<Claim>({
  id: 'self-joint',
  severity: 'error',
  summary: 'a wire from a lug to itself',
  describe: ({ subjects: { lug } }) => `This wire runs from ${lug} to itself: it connects nothing`,
  check({ circuit }) {
    return circuit.joints
      .filter((joint) => joint.a === joint.b && formOf(joint) !== undefined)
      .map((joint) => {
        const name = lugLabel(circuit, joint.a);
        const edits = removeStatement(circuit, joint);
        return {
          claim: { subjects: { lug: name } },
          why: 'One of its ends was meant for another lug.',
          range: placeOfJoint(circuit, joint),
          fixes: edits ? [{ title: 'take out this wire', edits }] : [],
          subjects: [name],
        };
      });
  },
});
