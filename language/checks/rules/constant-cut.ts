/** A capacitor of a tone's size straight from the signal to ground, without a pot or a switch before it. */
import { elementById, partById, type Capacitor, type LugId, type Output } from '../../circuit/model.js';
import { lugLabel, placeOfPart, type Facts } from '../facts/index.js';
import { endsOf } from '../facts/wiring/ends.js';
import { joinedTo } from '../facts/wiring/leads.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

/** Below this a capacitor only moves the resonance, as some cables do (trade practice). */
const least = 4.7e-9;

interface Claim extends Statement {
  readonly subjects: { readonly capacitor: string; readonly at: string };
}

export const constantCut = defineRule<Claim>({
  id: 'constant-cut',
  severity: 'warning',
  summary: 'a capacitor that lies straight across the signal, so that treble is always cut',
  describe: ({ subjects: { capacitor, at } }) => `${capacitor} lies straight across the signal at ${at}: treble is always cut`,
  check(facts) {
    const { circuit, joined, unread } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || unread.any || circuit.output === undefined) return [];
    const ground = joined.classOf(circuit.output.sleeve);
    const signal = signalOf(facts, circuit.output);
    return circuit.elements.flatMap((element) => {
      if (element.kind !== 'capacitor' || !isLarge(element)) return [];
      const [a, b] = [joined.classOf(element.a), joined.classOf(element.b)];
      const hot = a === ground ? b : b === ground ? a : undefined;
      if (hot === undefined || hot === ground || !signal.has(hot)) return [];
      const { name } = partById(circuit, element.part);
      const lug = hot === a ? element.a : element.b;
      return [
        {
          claim: { subjects: { capacitor: name, at: describePlace(facts, lug) } },
          why: 'The capacitor of a tone control belongs behind the track of the pot, which keeps it off the signal while the pot is turned up. One lead of this one is on the signal itself.',
          range: placeOfPart(circuit, element.part),
          subjects: [name, lugLabel(circuit, lug)],
        },
      ];
    });
  },
});

function isLarge({ capacitance }: Capacitor): boolean {
  return capacitance.known && capacitance.value >= least;
}

/** The tip, a pickup's own lead (not where two of its coils meet), input and output of a stage, and the lugs of a pot whose other end is on ground. */
function signalOf({ circuit, joined }: Facts, { tip, sleeve }: Output): ReadonlySet<number> {
  const ground = joined.classOf(sleeve);
  const signal = new Set([joined.classOf(tip)]);
  for (const part of circuit.parts) {
    if (part.family !== 'pickup') continue;
    const ends = part.elements
      .flatMap((id) => [elementById(circuit, id).a, elementById(circuit, id).b])
      .map((lug) => joined.classOf(lug));
    for (const classId of ends) if (ends.filter((other) => other === classId).length === 1) signal.add(classId);
  }
  for (const element of circuit.elements) {
    // An input of an op-amp may be held still on purpose, while the signal goes to the other.
    if (element.kind === 'gain' && element.inverting === undefined) signal.add(joined.classOf(element.a));
    if (element.kind === 'gain') signal.add(joined.classOf(element.b));
    if (element.kind !== 'track') continue;
    const classes = endsOf(element).map((lug) => joined.classOf(lug));
    if (classes[0] === ground || classes[2] === ground) for (const classId of classes) signal.add(classId);
  }
  signal.delete(ground);
  return signal;
}

function describePlace({ circuit, joined }: Facts, lead: LugId): string {
  return lugLabel(circuit, joinedTo(circuit, joined, lead)[0] ?? lead);
}
