/** A screened wire whose screen is tied at neither end. */
import { lugLabel } from '../facts/index.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly ends: readonly [string, string] };
}

export const floatingScreen = defineRule<Claim>({
  id: 'floating-screen',
  severity: 'error',
  summary: 'a screen that is connected at neither end',
  describe: ({ subjects: { ends } }) => `The screen of the wire from ${ends[0]} to ${ends[1]} is not connected at either end`,
  check({ circuit, joined }) {
    const loose = circuit.joints.filter(
      (joint) => joint.kind === 'wire' && joint.shielded && (joint.screen === undefined || joined.at(joint.screen).length === 0),
    );
    // The runs of one statement share their screen's ties.
    const seen = new Set<number>();
    return loose
      .filter(({ statement }) => !seen.has(statement) && seen.add(statement))
      .map((joint) => ({
        claim: { subjects: { ends: [lugLabel(circuit, joint.a), lugLabel(circuit, joint.b)] } },
        why: 'A screen that is connected to nothing shields nothing and couples hum into its core. Connect it to ground at one end (`screen to volume.case`), and insulate the other end.',
        range: joint.range,
        subjects: [lugLabel(circuit, joint.a), lugLabel(circuit, joint.b)],
      }));
  },
});
