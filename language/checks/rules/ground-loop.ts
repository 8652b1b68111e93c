/** Loops in the ground network, told once. */
import type { Joint } from '../../circuit/model.js';
import type { GroundLoop } from '../../electrics/index.js';
import { label, labels, listed, placeOfInstrument } from '../facts/index.js';
import { defineRule } from '../rule.js';

export const groundLoop = defineRule({
  id: 'ground-loop',
  severity: 'info',
  summary: 'wires that close a loop in the ground network',
  check(facts) {
    const { circuit } = facts;
    if (circuit.output === undefined || facts.outputFault() !== undefined) return [];
    const { loops, touchLoops } = facts.ground();
    if (loops.length === 0) return [];
    const [first] = loops;
    const byId = new Map(circuit.joints.map((joint) => [joint.id, joint]));
    const jointsOf = (loop: GroundLoop): readonly Joint[] => loop.joints.flatMap((id) => byId.get(id) ?? []);
    const wires = jointsOf(first!);
    const touching =
      touchLoops > 0 ? `; ${touchLoops} more ${touchLoops > 1 ? 'close' : 'closes'} only where metal touches metal` : '';
    return [
      {
        message: `ground runs in ${loops.length > 1 ? `${loops.length} loops, one` : 'a loop'} over ${listed(labels(circuit, first!.lugs))}${touching}`,
        why: 'Most loops inside an instrument are harmless. If it hums near a transformer, leave one wire of the loop out: each thing then has one way to ground.',
        range: wires[wires.length - 1]?.range ?? placeOfInstrument(circuit),
        related: loops.flatMap((loop, index) =>
          jointsOf(loop).map((joint) => ({
            message: `in loop ${index + 1}: ${label(circuit, joint.a)} to ${label(circuit, joint.b)}`,
            range: joint.range,
          })),
        ),
        subjects: [...new Set(loops.flatMap((loop) => labels(circuit, loop.lugs)))],
      },
    ];
  },
});
