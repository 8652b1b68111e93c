/** Metal that is not on ground in every position. */
import type { LugId } from '../../circuit/model.js';
import { nets, type Setting, type Ungrounded } from '../../electrics/index.js';
import { endsOf, label, labels, listed, placeOfLug, whereSaid, type Facts } from '../facts/index.js';
import { defineRule, type Told } from '../rule.js';

export const floatingMetal = defineRule({
  id: 'floating-metal',
  severity: 'error',
  summary: 'a case, frame, cover, plate, shield or the strings not on ground in every position',
  check(facts): readonly Told[] {
    const { circuit, joined, loss } = facts;
    if (circuit.output === undefined || facts.outputFault() !== undefined || loss.any) return [];
    const islands = new Map<number, Ungrounded[]>();
    for (const item of facts.ground().ungrounded) {
      if (!isLeftToOthers(facts, item.lug))
        islands.set(joined.klass(item.lug), [...(islands.get(joined.klass(item.lug)) ?? []), item]);
    }
    return [...islands.values()].filter((island) => !hangsOnAPart(facts, island[0]!)).map((island) => tell(facts, island));
  },
});

/** A part without a wire, a screen tied nowhere: their own rules tell them. */
function isLeftToOthers({ circuit, joined }: Facts, lug: LugId): boolean {
  const part = circuit.parts[circuit.lugs[lug]!.part]!;
  return joined.isUnwired(part.id) || (part.family === 'screen' && joined.at(lug).length === 0);
}

/** Strings or a screen may hang on ground through a capacitor or a resistor, for the player's safety or against a loop. */
function hangsOnAPart(facts: Facts, { lug, settings }: Ungrounded): boolean {
  const { circuit } = facts;
  return settings.every((setting) => {
    const folded = nets(circuit, setting.positions);
    const here = folded.of[lug];
    // Where something else ends too, a pot's track say, the net is the signal's, and the part no way to ground of its own.
    const ends = circuit.elements.filter((element) => endsOf(element).some((end) => folded.of[end] === here));
    return (
      ends.length > 0 &&
      ends.every((element) => {
        if (element.kind !== 'resistor' && element.kind !== 'capacitor') return false;
        const [a, b] = [folded.of[element.a], folded.of[element.b]];
        return (a === here && b === folded.ground) || (b === here && a === folded.ground);
      })
    );
  });
}

function tell(facts: Facts, island: readonly Ungrounded[]): Told {
  const { circuit } = facts;
  const [first] = island;
  const metal = island.map(({ lug }) => lug);
  const names = listed(labels(circuit, metal));
  const settings = first!.always ? facts.settings() : first!.settings;
  const where = first!.always ? '' : ` ${whereSaid(circuit, facts.settings(), settings)}`;
  const hot = signalOn(facts, metal[0]!, settings[0]!);
  const plural = metal.length > 1;
  const alone = !plural && facts.joined.at(metal[0]!).length === 0;
  return {
    message: hot
      ? `${names} ${plural ? 'are' : 'is'} on the signal (${hot})${where}, not on ground`
      : alone
        ? `${names} is not on ground: nothing is soldered to it`
        : `${names} ${plural ? 'hang together but are' : 'is'} not joined to ground${where || ' in any position'}`,
    why: hot
      ? 'Metal on the signal is an aerial that you touch: it hums, and where it meets grounded metal the signal is gone.'
      : 'Free metal picks up hum and buzzes when it is touched. A wire to any case, plate or star that is on ground mends it; near zero ohms to the sleeve proves it.',
    range: placeOfLug(circuit, metal[0]!),
    related: metal.slice(1).map((lug) => ({ message: `${label(circuit, lug)} as well`, range: placeOfLug(circuit, lug) })),
    subjects: labels(circuit, metal),
  };
}

/** What carries the signal on this lug's net: the output's tip, else the first lead of a coil. */
function signalOn({ circuit }: Facts, lug: LugId, setting: Setting): string | undefined {
  const folded = nets(circuit, setting.positions);
  const here = folded.of[lug]!;
  if (here === folded.ground) return undefined;
  if (here === folded.tip) return label(circuit, circuit.output!.tip);
  const coil = circuit.elements.find(
    (element) => element.kind === 'coil' && (folded.of[element.a] === here || folded.of[element.b] === here),
  );
  if (coil === undefined) return undefined;
  return label(circuit, folded.of[coil.a] === here ? coil.a : coil.b);
}
