/** A screened wire whose screen is tied at neither end. */
import { label } from '../facts/index.js';
import { defineRule } from '../rule.js';

export const floatingScreen = defineRule({
  id: 'floating-screen',
  severity: 'error',
  summary: 'a screen that is tied at neither end',
  check({ circuit, joined }) {
    const loose = circuit.joints.filter(
      (joint) => joint.kind === 'wire' && joint.shielded && (joint.screen === undefined || joined.at(joint.screen).length === 0),
    );
    // The runs of one statement share their screen's ties.
    const seen = new Set<number>();
    return loose
      .filter(({ statement }) => !seen.has(statement) && seen.add(statement))
      .map((joint) => ({
        message: `the screen of the wire from ${label(circuit, joint.a)} to ${label(circuit, joint.b)} is tied at neither end`,
        why: 'A free screen shields nothing and couples hum into its core. Tie it to ground at one end (`screen to volume.case`), and sleeve the other.',
        range: joint.range,
        subjects: [label(circuit, joint.a), label(circuit, joint.b)],
      }));
  },
});
