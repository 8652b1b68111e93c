/** A diode or an LED that is the wrong way round. */
import { type Circuit, type Diode, type ElementId, type Gain, partById } from '../../circuit/model.js';
import { createSupply, type Nets } from '../../electrics/index.js';
import type { Statement } from '../../source.js';
import { abridged, placeOfPart } from '../facts/index.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule, type Report } from '../rule.js';

type Claim = Pick<Statement, 'tried'> &
  (
    | { readonly kind: 'led'; readonly subjects: { readonly diode: string } }
    | { readonly kind: 'supply'; readonly subjects: { readonly diode: string; readonly stages: readonly string[] } }
  );

export const turnedDiode = defineRule<Claim>({
  id: 'turned-diode',
  severity: 'error',
  summary: 'an LED, or a diode in a supply, that is the wrong way round',
  describe(claim) {
    const { diode } = claim.subjects;
    return claim.kind === 'led'
      ? `${diode} is the wrong way round: it is lit ${everywhere('no', claim)}, and with its leads exchanged it would be`
      : `${diode} is the wrong way round: it keeps the battery from ${abridged(claim.subjects.stages)} ${everywhere('every', claim)}`;
  },
  check(facts): readonly Report<Claim>[] {
    const { circuit, unread, joined } = facts;
    const diodes = circuit.elements.filter((element): element is Diode => element.kind === 'diode');
    if (diodes.length === 0 || unread.any || !circuit.elements.some(({ kind }) => kind === 'battery')) return [];
    const groups = facts.groups().map(({ folded }) => folded);
    const fed = new Set(groups.flatMap((folded) => fedStages(circuit, folded)));
    return diodes.flatMap((diode): readonly Report<Claim>[] => {
      // A Zener diode lies backwards on purpose.
      if (diode.breakdown !== undefined || joined.isUnwired(diode.part)) return [];
      if (groups.some((folded) => createSupply(circuit, folded).conducts(diode.id))) return [];
      const turned: Circuit = { ...circuit, elements: circuit.elements.map((one) => (one === diode ? exchanged(diode) : one)) };
      const { name } = partById(circuit, diode.part);
      const claim = claimOf({ circuit: turned, groups, fed }, diode, name);
      if (claim === undefined) return [];
      return [
        {
          claim: { ...claim, ...triedIn(facts) },
          why:
            claim.kind === 'led'
              ? 'Current flows from anode to cathode alone. The cathode is the shorter lead, on the side where the rim is flat.'
              : 'Current flows from anode to cathode alone. The cathode, marked by a band, belongs on the side of the stage where the diode is in the plus lead.',
          range: placeOfPart(circuit, diode.part),
          subjects: [name, ...(claim.kind === 'supply' ? claim.subjects.stages : [])],
        },
      ];
    });
  },
});

interface Turned {
  /** The circuit with one diode turned round. */
  readonly circuit: Circuit;
  readonly groups: readonly Nets[];
  /** Stages that have a supply as things are. */
  readonly fed: ReadonlySet<ElementId>;
}

function claimOf({ circuit, groups, fed }: Turned, diode: Diode, name: string): Claim | undefined {
  if (diode.lights === true) {
    const isLit = groups.some((folded) => createSupply(circuit, folded).conducts(diode.id));
    return isLit ? { kind: 'led', subjects: { diode: name } } : undefined;
  }
  const stages = groups.flatMap((folded) => fedStages(circuit, folded)).filter((stage) => !fed.has(stage));
  const names = stages.map((stage) => circuit.elements[stage]).flatMap((stage) => (stage === undefined ? [] : [stage.part]));
  if (names.length === 0) return undefined;
  return { kind: 'supply', subjects: { diode: name, stages: [...new Set(names)].map((part) => partById(circuit, part).name) } };
}

function exchanged(diode: Diode): Diode {
  return { ...diode, a: diode.b, b: diode.a };
}

function fedStages(circuit: Circuit, folded: Nets): readonly ElementId[] {
  const supply = createSupply(circuit, folded);
  return circuit.elements
    .filter((element): element is Gain => element.kind === 'gain')
    .filter((stage) => supply.feeds(stage))
    .map(({ id }) => id);
}
