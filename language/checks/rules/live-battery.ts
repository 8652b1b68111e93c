/** A battery that feeds a stage whatever is switched or unplugged. */
import { partById, type Circuit, type Gain } from '../../circuit/model.js';
import { isAlive, nets, unpluggedSettings } from '../../electrics/index.js';
import type { Statement } from '../../source.js';
import { abridged, placeOfPart, type Facts } from '../facts/index.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule, type Report } from '../rule.js';

interface Claim extends Statement {
  readonly subjects: { readonly battery: string; readonly stages: readonly string[] };
}

export const liveBattery = defineRule<Claim>({
  id: 'live-battery',
  severity: 'warning',
  summary: 'a battery that neither unplugging nor a switch turns off',
  describe: ({ subjects: { battery, stages }, tried }) =>
    `${battery} is never switched off: with no plug in the jack it still feeds ${abridged(stages)}${tried === undefined ? '' : ` ${everywhere('every', { tried })}`}`,
  check(facts): readonly Report<Claim>[] {
    const { circuit, unread } = facts;
    if (circuit.output === undefined || facts.outputFault() === 'unwired' || unread.any) return [];
    const drained = circuit.elements.filter(
      (element): element is Gain => element.kind === 'gain' && isFedUnplugged(facts, circuit, element),
    );
    if (drained.length === 0) return [];
    return circuit.elements.flatMap((cell): readonly Report<Claim>[] => {
      if (cell.kind !== 'battery') return [];
      const without: Circuit = { ...circuit, elements: circuit.elements.filter(({ id }) => id !== cell.id) };
      const stages = drained
        .filter((stage) => !isFedUnplugged(facts, without, stage))
        .map(({ part }) => partById(circuit, part).name);
      if (stages.length === 0) return [];
      const { name } = partById(circuit, cell.part);
      return [
        {
          claim: { subjects: { battery: name, stages: [...new Set(stages)] }, ...triedIn(facts) },
          why: 'The battery runs down in the case. Take its minus to the ring of a stereo jack, which a mono plug connects to the sleeve, with the minus of the stage on the sleeve; or put a switch into one of its leads.',
          range: placeOfPart(circuit, cell.part),
          subjects: [name, ...stages],
        },
      ];
    });
  },
});

/** True where the stage has its supply with no plug in any jack, wherever the switches are set. */
function isFedUnplugged({ circuit, groups }: Facts, powered: Circuit, stage: Gain): boolean {
  return groups().every(({ setting }) =>
    unpluggedSettings(circuit, setting).every(({ positions }) => isAlive(powered, nets(circuit, positions), stage)),
  );
}
