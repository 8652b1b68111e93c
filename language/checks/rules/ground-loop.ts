/** Loops in the ground network, reported once. */
import type { Joint } from '../../circuit/model.js';
import type { GroundLoop } from '../../electrics/index.js';
import { lugLabel, lugLabels, abridged, placeOfInstrument } from '../facts/index.js';
import { defineRule } from '../rule.js';
import { figure, type Figure } from '../../claim.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly loops: readonly (readonly string[])[] };
  readonly figures?: { readonly 'by-touch': Figure };
}

export const groundLoop = defineRule<Claim>({
  id: 'ground-loop',
  severity: 'info',
  summary: 'wires that close a loop in the ground network',
  describe({ subjects: { loops }, figures }) {
    const touching = figures?.['by-touch'].value ?? 0;
    const more = touching > 0 ? `; ${touching} more ${touching > 1 ? 'close' : 'closes'} only where metal touches metal` : '';
    return `Ground forms ${loops.length > 1 ? `${loops.length} loops, one of them` : 'a loop'} through ${abridged(loops[0] ?? [])}${more}`;
  },
  check(facts) {
    const { circuit } = facts;
    if (circuit.output === undefined || facts.outputFault() !== undefined) return [];
    const { loops, touchLoops } = facts.ground();
    const [first] = loops;
    if (first === undefined) return [];
    const byId = new Map(circuit.joints.map((joint) => [joint.id, joint]));
    const jointsOf = (loop: GroundLoop): readonly Joint[] => loop.joints.flatMap((id) => byId.get(id) ?? []);
    const wires = jointsOf(first);
    return [
      {
        claim: {
          subjects: { loops: loops.map(({ lugs }) => lugLabels(circuit, lugs)) },
          ...(touchLoops === 0 ? {} : { figures: { 'by-touch': figure(touchLoops, 'count') } }),
        },
        why: 'Most loops inside an instrument are harmless. If it hums near a transformer, remove one wire of the loop, so that everything has only one path to ground.',
        range: wires.at(-1)?.range ?? placeOfInstrument(circuit),
        related: loops.flatMap((loop, index) =>
          jointsOf(loop).map((joint) => ({
            message: `in loop ${index + 1}: ${lugLabel(circuit, joint.a)} to ${lugLabel(circuit, joint.b)}`,
            range: joint.range,
          })),
        ),
        subjects: [...new Set(loops.flatMap((loop) => lugLabels(circuit, loop.lugs)))],
      },
    ];
  },
});
