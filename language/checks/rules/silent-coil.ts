/** One coil of a pickup that no position lets through. */
import type { Coil } from '../../circuit/model.js';
import { coilName } from '../facts/coils.js';
import { endsOf, label, placeOfPart, type Facts } from '../facts/index.js';
import { looseLeads } from '../facts/leads.js';
import { defineRule } from '../rule.js';

export const silentCoil = defineRule({
  id: 'silent-coil',
  severity: 'warning',
  summary: 'a coil that is shorted or leads nowhere in every position, while another coil of its pickup is heard',
  check(facts) {
    const { circuit, hearing, loss } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || loss.any) return [];
    return hearing.pickups.flatMap((part) => {
      const coils = part.elements
        .map((id) => circuit.elements[id]!)
        .filter((element): element is Coil => element.kind === 'coil');
      if (coils.length < 2 || hearing.dead().has(part.id) || looseLeads(facts, part).length > 0) return [];
      const silent = coils.filter((coil) => coil.output > 0 && (coil.coupling ?? 0) === 0 && isIdle(facts, coil));
      return silent.length === 0 || silent.length === coils.length
        ? []
        : silent.map((coil) => ({
            message: `${coilName(circuit, coil)} is never heard: ${isShorted(facts, coil) ? 'both its ends are on one net' : 'one of its ends leads nowhere'} in every position`,
            why: 'Half a pickup is quieter, thinner and hums. A split by a switch lets the coil play in one position at least.',
            range: placeOfPart(circuit, part.id),
            subjects: [part.name, label(circuit, coil.a), label(circuit, coil.b)],
          }));
    });
  },
});

function isShorted(facts: Facts, { a, b }: Coil): boolean {
  return facts.groups().every(({ folded }) => folded.of[a] === folded.of[b]);
}

function isIdle(facts: Facts, coil: Coil): boolean {
  const { circuit } = facts;
  return facts.groups().every(({ folded }) => {
    const { of, tip, ground } = folded;
    if (of[coil.a] === of[coil.b]) return true;
    const isFree = (lug: number): boolean =>
      of[lug] !== tip &&
      of[lug] !== ground &&
      circuit.elements.every((other) => other === coil || endsOf(other).every((end) => of[end] !== of[lug]));
    return isFree(coil.a) || isFree(coil.b);
  });
}
