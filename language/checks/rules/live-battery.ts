/** A battery that feeds a stage, a lamp or a relay whatever is switched or unplugged. */
import { partById, type Circuit, type PartId } from '../../circuit/model.js';
import { createSupply, nets, unpluggedSettings, type Supply } from '../../electrics/index.js';
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
    const drained = loadsOf(circuit).filter((load) => isFedUnplugged(facts, circuit, load));
    if (drained.length === 0) return [];
    return circuit.elements.flatMap((cell): readonly Report<Claim>[] => {
      if (cell.kind !== 'battery') return [];
      const without: Circuit = { ...circuit, elements: circuit.elements.filter(({ id }) => id !== cell.id) };
      const stages = drained
        .filter((load) => !isFedUnplugged(facts, without, load))
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

/** What a battery runs down through. */
interface Load {
  readonly part: PartId;
  isFed(supply: Supply): boolean;
}

function loadsOf({ elements, switches }: Circuit): readonly Load[] {
  const loads = elements.flatMap((element): readonly Load[] => {
    if (element.kind === 'gain') return [{ part: element.part, isFed: (supply) => supply.feeds(element) }];
    if (element.kind !== 'diode' || element.lights !== true) return [];
    return [{ part: element.part, isFed: (supply) => supply.conducts(element.id) }];
  });
  const relays = switches.flatMap(({ part, drive }): readonly Load[] =>
    drive === undefined || loads.some((load) => load.part === part) ? [] : [{ part, isFed: (supply) => supply.drives(drive) }],
  );
  return [...loads, ...relays];
}

/** True where the load has its supply with no plug in any jack, wherever the switches are set. */
function isFedUnplugged({ circuit, groups }: Facts, powered: Circuit, load: Load): boolean {
  return groups().every(({ setting }) =>
    unpluggedSettings(circuit, setting).every(({ positions }) => load.isFed(createSupply(powered, nets(circuit, positions)))),
  );
}
