/** Tip and sleeve joined in every position, by joints, contacts or a wiper at the end of its track. */
import { altered, type AnalysedCircuit, type Joint, type LugId, type Output, type Switch } from '../../circuit/model.js';
import { branchesOf, nets, restingSetting, withPosition } from '../../electrics/index.js';
import { removeStatement } from '../edits.js';
import { factsOf, lugLabel, placeOfLug, type Facts } from '../facts/index.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly kind?: 'joint' | 'contact' | 'resting-contact';
  readonly subjects: {
    readonly tip: string;
    readonly sleeve: string;
    readonly ends?: readonly [string, string];
    readonly switch?: string;
  };
}

export const shortedOutput = defineRule<Claim>({
  id: 'shorted-output',
  severity: 'error',
  summary: 'tip and sleeve are one net in every position',
  describe({ kind, subjects: { tip, sleeve, ends, switch: device = '' }, ...claim }) {
    const cause = ends
      ? ` by the joint from ${ends[0]} to ${ends[1]}`
      : kind === undefined
        ? ''
        : ` by the contact of ${device}${kind === 'contact' ? '' : ' in its resting position'}`;
    return `${tip} and ${sleeve} are one net ${everywhere('every', claim)}: the signal is shorted to ground${cause}`;
  },
  check(facts) {
    const { circuit } = facts;
    const { output } = circuit;
    if (output === undefined || facts.outputFault() !== 'shorted') return [];
    const [tip, sleeve] = [lugLabel(circuit, output.tip), lugLabel(circuit, output.sleeve)];
    const path = pathOf(circuit, output);
    const joints = path.flatMap(({ joint }) => joint ?? []);
    const only = culpritOf(circuit, joints);
    const cut = only && removeStatement(circuit, only);
    const contact = path.length === 0 ? circuit.switches.find((device) => opensIt(facts, device)) : undefined;
    const ends = only && ([lugLabel(circuit, only.a), lugLabel(circuit, only.b)] as const);
    return [
      {
        claim: {
          ...triedIn(facts),
          ...(ends !== undefined
            ? { kind: 'joint', subjects: { tip, sleeve, ends } }
            : contact !== undefined
              ? {
                  kind: contact.rest === undefined ? 'contact' : 'resting-contact',
                  subjects: { tip, sleeve, switch: contact.name },
                }
              : { subjects: { tip, sleeve } }),
        },
        why: 'With the battery out and the controls up, the meter reads near zero from tip to sleeve. Follow the joints from the tip to the first one that touches metal.',
        range: only?.range ?? joints[0]?.range ?? placeOfLug(circuit, output.tip),
        related: joints
          .filter((joint) => joint !== only)
          .map((joint) => ({
            message: `on the path: ${lugLabel(circuit, joint.a)} to ${lugLabel(circuit, joint.b)}`,
            range: joint.range,
          })),
        fixes: cut && ends ? [{ title: `take out the wire from ${ends[0]} to ${ends[1]}`, edits: cut }] : [],
        subjects: [tip, sleeve, ...(ends ?? []), ...(contact ? [contact.name] : [])],
      },
    ];
  },
});

/** A joint, or the wiper of a pot that stands at the end of its track. */
interface Step {
  readonly a: LugId;
  readonly b: LugId;
  readonly joint?: Joint;
}

function stepsOf(circuit: AnalysedCircuit): readonly Step[] {
  const joints = circuit.joints.map((joint) => ({ a: joint.a, b: joint.b, joint }));
  const wipers = branchesOf(circuit, restingSetting(circuit).rotations).filter(({ kind }) => kind === 'join');
  return [...joints, ...wipers.map(({ a, b }) => ({ a, b }))];
}

/** The fewest steps that lead from tip to sleeve; empty where only a switch closes the way. */
function pathOf(circuit: AnalysedCircuit, output: Output): readonly Step[] {
  const came = new Map<LugId, Step>();
  const queue = [output.tip];
  const steps = stepsOf(circuit);
  for (let at = queue.shift(); at !== undefined && at !== output.sleeve; at = queue.shift()) {
    for (const step of steps) {
      const next = step.a === at ? step.b : step.b === at ? step.a : undefined;
      if (next === undefined || next === output.tip || came.has(next)) continue;
      came.set(next, step);
      queue.push(next);
    }
  }
  const path: Step[] = [];
  let at = output.sleeve;
  for (let step = came.get(at); step !== undefined; step = came.get(at)) {
    path.unshift(step);
    at = step.a === at ? step.b : step.a;
  }
  return path;
}

/** The joint without which the most positions sound, one made at the bench before one inside an assembly; none where two are alike in that, or nothing helps. */
function culpritOf(circuit: AnalysedCircuit, joints: readonly Joint[]): Joint | undefined {
  const rated = joints.map((joint) => {
    const { signal, groups } = factsOf(altered(circuit, { joints: circuit.joints.filter((other) => other !== joint) }));
    return { joint, sounding: groups().filter(({ setting }) => !signal.sound(setting).silent).length };
  });
  const most = Math.max(0, ...rated.map(({ sounding }) => sounding));
  const best = rated.filter(({ sounding }) => sounding === most).map(({ joint }) => joint);
  const made = best.filter(({ kind }) => kind !== 'inside');
  const [only, ...others] = made.length === 1 ? made : best;
  return most === 0 || others.length > 0 ? undefined : only;
}

/** True where the short goes, in every position, with this switch taken away. */
function opensIt({ circuit, groups }: Facts, device: Switch): boolean {
  return groups().every(({ setting }) => {
    const folded = nets(circuit, withPosition(setting, device.id, -1).positions);
    return folded.tip !== folded.ground;
  });
}
