/** Tip and sleeve on one net in every position. */
import type { Circuit, Joint, Output } from '../../circuit/model.js';
import { removeStatement } from '../edits.js';
import { foldJoints, label, placeOfLug } from '../facts/index.js';
import { defineRule } from '../rule.js';

export const shortedOutput = defineRule({
  id: 'shorted-output',
  severity: 'error',
  summary: 'tip and sleeve are one net in every position',
  check(facts) {
    const { circuit } = facts;
    const { output } = circuit;
    if (output === undefined || facts.outputFault() !== 'shorted') return [];
    const [tip, sleeve] = [label(circuit, output.tip), label(circuit, output.sleeve)];
    const path = pathOf(circuit, output);
    const culprits = path.filter((joint) => partsWays(circuit, output, joint));
    const [only] = culprits.length === 1 ? culprits : [];
    const cut = only && removeStatement(circuit, only);
    return [
      {
        message:
          `${tip} and ${sleeve} are one net in every position: the signal is shorted to ground` +
          (only ? ` by the joint from ${label(circuit, only.a)} to ${label(circuit, only.b)}` : ''),
        why: 'With the battery out and the jack empty, the meter reads near zero from tip to sleeve. Follow the joints from the tip to the first one that meets metal.',
        range: only?.range ?? path[0]?.range ?? placeOfLug(circuit, output.tip),
        related: path
          .filter((joint) => joint !== only)
          .map((joint) => ({ message: `on the way: ${label(circuit, joint.a)} to ${label(circuit, joint.b)}`, range: joint.range })),
        fixes: cut ? [{ title: `take out the wire from ${label(circuit, only.a)} to ${label(circuit, only.b)}`, edits: cut }] : [],
        subjects: [tip, sleeve, ...(only ? [label(circuit, only.a), label(circuit, only.b)] : [])],
      },
    ];
  },
});

/** The fewest joints that lead from tip to sleeve; empty where only a switch closes the way. */
function pathOf(circuit: Circuit, output: Output): readonly Joint[] {
  const came = new Map<number, Joint>();
  const queue = [output.tip];
  for (let at = queue.shift(); at !== undefined && at !== output.sleeve; at = queue.shift()) {
    for (const joint of circuit.joints) {
      const next = joint.a === at ? joint.b : joint.b === at ? joint.a : undefined;
      if (next === undefined || next === output.tip || came.has(next)) continue;
      came.set(next, joint);
      queue.push(next);
    }
  }
  const path: Joint[] = [];
  let at = output.sleeve;
  for (let joint = came.get(at); joint !== undefined; joint = came.get(at)) {
    path.unshift(joint);
    at = joint.a === at ? joint.b : joint.a;
  }
  return path;
}

/** True where taking the joint out leaves the tip's side without metal: then it is the joint that should not be. */
function partsWays(circuit: Circuit, output: Output, joint: Joint): boolean {
  const classes = foldJoints(
    circuit,
    circuit.joints.filter((other) => other !== joint),
  );
  const hot = classes[output.tip];
  return hot !== classes[output.sleeve] && !circuit.lugs.some((lug) => lug.metal && classes[lug.id] === hot);
}
