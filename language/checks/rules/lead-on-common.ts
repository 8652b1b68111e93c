/** A pickup's lead on the common of a pole that chooses among pickups. */
import { elementById, lugById, type LugId, partById, partOfLug, type Switch } from '../../circuit/model.js';
import { withPosition, type Setting } from '../../electrics/index.js';
import { type Facts, lugLabel, abridged, placeOfLug } from '../facts/index.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly lead: string; readonly common: string; readonly chosen: readonly string[] };
}

export const leadOnCommon = defineRule<Claim>({
  id: 'lead-on-common',
  severity: 'warning',
  summary: 'a pickup on the common of a pole whose throws select pickups, while a throw is free',
  describe: ({ subjects: { lead, common, chosen }, ...claim }) =>
    `${lead} is on ${common}, the common of the pole that selects ${abridged(chosen)}: the switch turns it off ${everywhere('no', claim)}`,
  check(facts) {
    const { circuit, unread } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || unread.any) return [];
    return facts.poles().flatMap((pole) => {
      const { common, device } = pole;
      if (common === undefined || partById(circuit, device.part).family === 'jack' || device.rest !== undefined) return [];
      const here = hotLeads(facts, common).filter((lug) => isGrounded(facts, lug));
      const chosen = chosenBy(facts, pole.throws, common);
      const free = pole.throws.filter((lug) => !facts.joined.isWired(lug));
      const [lead] = here;
      if (lead === undefined || chosen.length === 0 || free.length === 0 || !isAlwaysOn(facts, device, lead)) return [];
      return [
        {
          claim: {
            subjects: {
              lead: lugLabel(circuit, lead),
              common: lugLabel(circuit, common),
              chosen: chosen.map((lug) => lugLabel(circuit, lug)),
            },
            ...triedIn(facts),
          },
          why: 'The common carries the selected pickup to the controls. A lead that is soldered to it can’t be switched off; a throw of this pole is free.',
          range: placeOfLug(circuit, lead),
          subjects: [lugLabel(circuit, lead), lugLabel(circuit, common)],
        },
      ];
    });
  },
});

/** True where the lead's pickup is heard somewhere, and wherever it is, no position of the switch alone silences it. */
function isAlwaysOn({ circuit, signal, settings }: Facts, device: Switch, lead: LugId): boolean {
  const { part } = lugById(circuit, lead);
  const isHeard = (setting: Setting): boolean =>
    signal.sound(setting).heard.some(({ coil }) => elementById(circuit, coil).part === part);
  const heard = settings().filter(isHeard);
  return (
    heard.length > 0 &&
    heard.every((setting) => device.positions.every((_, index) => isHeard(withPosition(setting, device.id, index))))
  );
}

/** The other lead is soldered to ground: where a pole moves that one, the hot lead may stay on the common. */
function isGrounded({ circuit, joined }: Facts, hot: LugId): boolean {
  if (circuit.output === undefined) return false;
  const sleeve = joined.classOf(circuit.output.sleeve);
  const { lugs } = partOfLug(circuit, hot);
  return lugs.some((lug) => !lugById(circuit, lug).metal && joined.classOf(lug) === sleeve);
}

/** Hot leads of pickups on a throw of the pole, but for what is on the common itself. */
function chosenBy(facts: Facts, throws: readonly LugId[], common: LugId): readonly LugId[] {
  const { joined } = facts;
  const others = throws.filter((lug) => joined.classOf(lug) !== joined.classOf(common));
  return [...new Set(others.flatMap((lug) => hotLeads(facts, lug)))];
}

/** Leads called hot that joints alone bring to a lug, ground left out. */
export function hotLeads({ circuit, joined }: Facts, lug: LugId): readonly LugId[] {
  const classId = joined.classOf(lug);
  if (circuit.output !== undefined && classId === joined.classOf(circuit.output.sleeve)) return [];
  return joined.members(classId).filter((other) => {
    const { part, name } = lugById(circuit, other);
    return partById(circuit, part).family === 'pickup' && (name === 'hot' || name === 'north-start');
  });
}
