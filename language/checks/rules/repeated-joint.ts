/** A wire that joins what is joined already: the same two lugs twice, or a loop in the signal. */
import { formOf, type Joint, lugById } from '../../circuit/model.js';
import { createForest, join, rootOf } from '../../numerics/index.js';
import { removeStatement } from '../edits.js';
import { type Facts, lugLabel, placeOfJoint } from '../facts/index.js';
import { defineRule, type Report } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly kind: 'twice' | 'loop';
  readonly subjects: { readonly ends: readonly [string, string] };
}

export const repeatedJoint = defineRule<Claim>({
  id: 'repeated-joint',
  severity: 'warning',
  summary: 'a wire between lugs that are joined already',
  describe: ({ kind, subjects: { ends } }) =>
    kind === 'twice'
      ? `${ends[0]} and ${ends[1]} are joined twice`
      : `${ends[0]} and ${ends[1]} are already joined by other wires: this one closes a loop in the signal and changes nothing`,
  check(facts): readonly Report<Claim>[] {
    const { circuit } = facts;
    const forest = createForest(circuit.lugs.length);
    const report: Report<Claim>[] = [];
    for (const joint of circuit.joints) {
      if (joint.kind === 'touch' || joint.kind === 'screen') continue;
      const closes = joint.a !== joint.b && rootOf(forest, joint.a) === rootOf(forest, joint.b);
      if (closes && formOf(joint) !== undefined) report.push(...reportsOf(facts, joint));
      join(forest, joint.a, joint.b);
    }
    return report;
  },
});

function reportsOf(facts: Facts, joint: Joint): readonly Report<Claim>[] {
  const { circuit } = facts;
  const [a, b] = [lugLabel(circuit, joint.a), lugLabel(circuit, joint.b)];
  const edits = removeStatement(circuit, joint);
  const base = {
    range: placeOfJoint(circuit, joint),
    subjects: [a, b],
    fixes: edits ? [{ title: 'take out this wire', edits }] : [],
  };
  const [one, other] = [facts.joined.at(joint.a), facts.joined.at(joint.b)];
  const beside = one.length < other.length ? one : other;
  const twin = beside.find((earlier) => earlier.id < joint.id && formOf(earlier) !== undefined && samePair(earlier, joint));
  if (twin !== undefined) {
    return [
      {
        ...base,
        claim: { kind: 'twice', subjects: { ends: [a, b] } },
        why: 'The second wire changes nothing. Perhaps one of its ends was meant for another lug.',
        related: [{ message: 'the first wire', range: placeOfJoint(circuit, twin) }],
      },
    ];
  }
  // A chain of cases that closes is reported as a ground loop, and is no mistake.
  if (isGround(facts, joint)) return [];
  return [
    {
      ...base,
      claim: { kind: 'loop', subjects: { ends: [a, b] } },
      why: 'Either leave it out, or move the end that was meant for another lug.',
    },
  ];
}

function samePair(one: Joint, other: Joint): boolean {
  return (one.a === other.a && one.b === other.b) || (one.a === other.b && one.b === other.a);
}

function isGround({ circuit, joined }: Facts, joint: Joint): boolean {
  const classId = joined.classOf(joint.a);
  return (
    classId === (circuit.output && joined.classOf(circuit.output.sleeve)) ||
    joined.members(classId).some((lug) => lugById(circuit, lug).metal)
  );
}
