/** More wires on a lug than it holds well. */
import { partById } from '../../circuit/model.js';
import { lugLabel, placeOfLug } from '../facts/index.js';
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
  check({ circuit, joined }) {
    return circuit.lugs
      .filter((lug) => !lug.takesMany && partById(circuit, lug.part).parent === undefined)
      .map((lug) => ({ lug, wires: joined.at(lug.id).filter((joint) => joint.kind === 'wire') }))
      .filter(({ wires }) => wires.length > most)
      .map(({ lug, wires }) => ({
        claim: { subjects: { lug: lug.label }, figures: { wires: figure(wires.length, 'count') } },
        why: 'Soldering the last wire loosens the first. Run one of them from another lug of the same net, or use a junction or a tag strip. The leads of small parts are not counted.',
        range: placeOfLug(circuit, lug.id),
        related: wires.map((joint) => ({
          message: `wire to ${lugLabel(circuit, joint.a === lug.id ? joint.b : joint.a)}`,
          range: joint.range,
        })),
        subjects: [lug.label],
      }));
  },
});
