/** More wires on a lug than it holds well. */
import { formOf, lugById, partOfLug, type Lug } from '../../circuit/model.js';
import { lugLabel, placeOfJoint, placeOfLug, type Facts } from '../facts/index.js';
import { defineRule } from '../rule.js';
import { figure, type Figure } from '../../claim.js';
import type { Statement } from '../../source.js';

const most = 3;

interface Claim extends Statement {
  readonly subjects: { readonly lug: string };
  readonly figures: { readonly wires: Figure };
}

export const crowdedLug = defineRule<Claim>({
  id: 'crowded-lug',
  severity: 'warning',
  summary: 'more than three wires on one lug',
  describe: ({ subjects: { lug }, figures: { wires } }) =>
    `${lug} holds ${wires.value} wires: more than ${most} seldom fit on a lug`,
  check(facts) {
    const { circuit, joined } = facts;
    return circuit.lugs
      .filter((lug) => !lug.takesMany && !isPadOnMetal(facts, lug))
      .map((lug) => ({ lug, wires: joined.at(lug.id).filter((joint) => formOf(joint) === 'wire') }))
      .filter(({ wires }) => wires.length > most)
      .map(({ lug, wires }) => ({
        claim: { subjects: { lug: lug.label }, figures: { wires: figure(wires.length, 'count') } },
        why: 'Soldering the last wire loosens the first. Run one of them from another lug of the same net, or use a junction or a tag strip. The leads of small parts are not counted.',
        range: placeOfLug(circuit, lug.id),
        related: wires.map((joint) => ({
          message: `wire to ${lugLabel(circuit, joint.a === lug.id ? joint.b : joint.a)}`,
          range: placeOfJoint(circuit, joint),
        })),
        subjects: [lug.label],
      }));
  },
});

/** A lug of an assembly that is soldered to a case, a frame or a star inside is that case to whoever wires it. */
function isPadOnMetal({ circuit, joined }: Facts, { id, part }: Lug): boolean {
  return joined.at(id).some((joint) => {
    const other = joint.a === id ? joint.b : joint.a;
    const isWithin = partOfLug(circuit, other).parent === part;
    return isWithin && formOf(joint) === 'solder' && lugById(circuit, other).takesMany;
  });
}
