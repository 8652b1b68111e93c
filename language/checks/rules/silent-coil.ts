/** One coil of a pickup that no position lets through. */
import { type Coil, elementById, type LugId } from '../../circuit/model.js';
import { type Facts, lugLabel, placeOfPart } from '../facts/index.js';
import { countEnds, elementEnds } from '../facts/wiring/ends.js';
import { looseLeads } from '../facts/wiring/leads.js';
import { coilName } from '../facts/words.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';
import { netOf, outputsOf } from '../../electrics/index.js';

interface Claim extends Statement {
  readonly kind: 'shorted' | 'open';
  readonly subjects: { readonly coil: string };
}

export const silentCoil = defineRule<Claim>({
  id: 'silent-coil',
  severity: 'warning',
  summary: 'a coil that is shorted or open in every position, while another coil of its pickup is heard',
  describe: ({ kind, subjects: { coil }, ...claim }) =>
    `${coil} is ${claim.tried === undefined ? 'never' : 'not'} heard: ${everywhere('every', claim)} ${kind === 'shorted' ? 'both its ends are on one net' : 'one of its ends is open'}`,
  check(facts) {
    const { circuit, signal, unread } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || unread.any) return [];
    const judged = signal.pickups.flatMap((part) => {
      const coils = part.elements
        .map((id) => elementById(circuit, id))
        .filter((element): element is Coil => element.kind === 'coil');
      return coils.length < 2 || signal.neverHeard().has(part.id) || looseLeads(facts, part).length > 0 ? [] : [{ part, coils }];
    });
    const idle = idleCoils(
      facts,
      judged.flatMap(({ coils }) => coils.filter(({ output, coupling }) => output > 0 && (coupling ?? 0) === 0)),
    );
    return judged.flatMap(({ part, coils }) => {
      const silent = coils.filter((coil) => idle.has(coil));
      return silent.length === 0 || silent.length === coils.length
        ? []
        : silent.map((coil) => ({
            claim: {
              kind: isShorted(facts, coil) ? 'shorted' : 'open',
              subjects: { coil: coilName(circuit, coil) },
              ...triedIn(facts),
            },
            why: 'Half a pickup is quieter and thinner, and it hums. If it is split by a switch, the coil is heard in at least one position.',
            range: placeOfPart(circuit, part.id),
            subjects: [part.name, lugLabel(circuit, coil.a), lugLabel(circuit, coil.b)],
          }));
    });
  },
});

function isShorted(facts: Facts, { a, b }: Coil): boolean {
  return facts.groups().every(({ folded }) => folded.of[a] === folded.of[b]);
}

/** Of these coils those that in every position are shorted, or have an end on which nothing else ends. */
function idleCoils(facts: Facts, coils: readonly Coil[]): ReadonlySet<Coil> {
  const { circuit } = facts;
  const outputs = outputsOf(circuit);
  let idle = coils;
  for (const { folded } of facts.groups()) {
    if (idle.length === 0) break;
    const { of, ground } = folded;
    const tips = new Set(outputs.map(({ tip }) => netOf(folded, tip)));
    const ends = countEnds(folded, elementEnds(circuit));
    const isFree = (lug: LugId): boolean => {
      const net = netOf(folded, lug);
      return !tips.has(net) && net !== ground && ends[net] === 1;
    };
    idle = idle.filter(({ a, b }) => of[a] === of[b] || isFree(a) || isFree(b));
  }
  return new Set(idle);
}
