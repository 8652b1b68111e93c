/** A pickup's lead on the common of a pole that chooses among pickups. */
import { lugById, type LugId, partById, partOfLug, type Switch } from '../../circuit/model.js';
import { withSwitchMoved, type Setting } from '../../electrics/index.js';
import { type Facts, lugLabel, abridged, placeOfLug } from '../facts/index.js';
import { hearingsOf, pickupsHeardAt } from '../facts/signal/hearings.js';
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
      if (lead === undefined || chosen.length === 0 || free.length === 0) return [];
      if (chosen.some((lug) => isMovedBy(facts, device, lug)) || !isAlwaysOn(facts, device, lead)) return [];
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

/** True where the lead's pickup is heard somewhere, and wherever it is, no position of the switch alone silences it at any output. */
function isAlwaysOn(facts: Facts, device: Switch, lead: LugId): boolean {
  const { name } = partOfLug(facts.circuit, lead);
  const heardAt = hearingsOf(facts).map((hearing) => {
    const isHeard = (setting: Setting): boolean => pickupsHeardAt(hearing, setting).has(name);
    return { isHeard, heard: facts.settings().filter(isHeard) };
  });
  return (
    heardAt.some(({ heard }) => heard.length > 0) &&
    heardAt.every(({ isHeard, heard }) =>
      heard.every((setting) =>
        device.positions.every((_, index) => isHeard(withSwitchMoved(facts.circuit, setting, device.id, index))),
      ),
    )
  );
}

/**
 * True where another lead of the pickup is on a pole of the same switch, ground left out. Such a switch joins pickups in series and in parallel:
 * the pole whose common the lower one is on adds the upper one, it does not choose between them, and its free throw must stay free.
 */
function isMovedBy({ circuit, joined }: Facts, device: Switch, hot: LugId): boolean {
  const sleeve = circuit.output === undefined ? -1 : joined.classOf(circuit.output.sleeve);
  return partOfLug(circuit, hot).lugs.some((lug) => {
    const classId = joined.classOf(lug);
    if (classId === joined.classOf(hot) || classId === sleeve) return false;
    return joined.members(classId).some((other) => lugById(circuit, other).part === device.part);
  });
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
