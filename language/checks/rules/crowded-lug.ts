/** More wires on a lug than it holds well. */
import { partById } from '../../circuit/model.js';
import { label, placeOfLug } from '../facts/index.js';
import { defineRule } from '../rule.js';

const most = 3;

export const crowdedLug = defineRule({
  id: 'crowded-lug',
  severity: 'warning',
  summary: 'more than three wires on one lug',
  check({ circuit, joined }) {
    return circuit.lugs
      .filter((lug) => !lug.takesMany && partById(circuit, lug.part).parent === undefined)
      .map((lug) => ({ lug, wires: joined.at(lug.id).filter((joint) => joint.kind === 'wire') }))
      .filter(({ wires }) => wires.length > most)
      .map(({ lug, wires }) => ({
        message: `${label(circuit, lug.id)} holds ${wires.length} wires: more than ${most} seldom fit a lug`,
        why: 'The last wire loosens the first. Chain one of them from another lug of the same net, or use a junction or a tag strip. The leads of small parts are not counted.',
        range: placeOfLug(circuit, lug.id),
        related: wires.map((joint) => ({
          message: `wire to ${label(circuit, joint.a === lug.id ? joint.b : joint.a)}`,
          range: joint.range,
        })),
        subjects: [lug.label],
      }));
  },
});
