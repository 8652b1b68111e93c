/** An instrument that is silent in every position while every control rests. */
import type { AnalysedCircuit } from '../../circuit/model.js';
import { describeSound, withPosition, withRotation, type Setting } from '../../electrics/index.js';
import type { Statement } from '../../source.js';
import { abridged, placeOfInstrument, placeOfPart, type Facts } from '../facts/index.js';
import { judgedEffects } from '../facts/shafts.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule, type Report } from '../rule.js';

interface Claim extends Statement {
  readonly subjects: { readonly controls: readonly string[] };
}

export const silentAtRest = defineRule<Claim>({
  id: 'silent-at-rest',
  severity: 'error',
  summary: 'an instrument that is silent in every position while every control is at rest',
  describe: ({ subjects: { controls }, ...claim }) =>
    `Nothing is heard ${everywhere('any', claim)} with every control at rest: moving ${abridged(controls, 'or')} makes it sound`,
  check(facts): readonly Report<Claim>[] {
    const { circuit, signal, unread } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || unread.any) return [];
    // Most instruments sound, and for them nothing needs explaining.
    if (!facts.groups().every(({ setting }) => signal.sound(setting).silent)) return [];
    if (isExplained(facts) || soundsElsewhere(facts)) return [];
    const movers = moversIn(facts);
    const [first] = movers;
    if (first === undefined) return [];
    return [
      {
        claim: { subjects: { controls: movers.map(({ name }) => name) }, ...triedIn(facts) },
        why: 'Follow the signal back from the tip with the controls where they rest (a volume or a tone at 10, a blend at 5, a button not pressed). Often one half of a dual pot or of a blend is mirrored, or a pot was wired for the other hand: then the wiper rests on ground.',
        range: movers.length === 1 ? placeOfPart(circuit, first.part) : placeOfInstrument(circuit),
        related:
          movers.length === 1 ? [] : movers.map(({ name, part }) => ({ message: name, range: placeOfPart(circuit, part) })),
        subjects: movers.map(({ name }) => name),
      },
    ];
  },
});

/** A pickup that nothing makes heard, a stage without supply and a pot that works backwards are reported as such; an expectation may ask for silence. */
function isExplained(facts: Facts): boolean {
  const { signal, intended } = facts;
  if (signal.pickups.length === 0 || signal.neverHeard().size === signal.pickups.length) return true;
  if (facts.stages().some(({ fed }) => fed.length === 0)) return true;
  if (facts.settings().every((setting) => intended.asksSilence(setting))) return true;
  return judgedEffects(facts).some(({ backwards }) => backwards);
}

/** True where something is heard with another plug, at a ring or at another jack. */
function soundsElsewhere({ signal, groups }: Facts): boolean {
  return signal
    .views()
    .slice(1)
    .some((view) => groups().some(({ setting }) => !describeSound(view.circuit, view.at(setting)).silent));
}

type Mover = Pick<AnalysedCircuit['shafts'][number], 'name' | 'part'>;

/** Pots and resting switches that make something heard when they alone are moved. */
function moversIn({ circuit, signal, groups }: Facts): readonly Mover[] {
  const sounds = (change: (setting: Setting) => readonly Setting[]): boolean =>
    groups().some(({ setting }) => change(setting).some((moved) => !signal.sound(moved).silent));
  const pots = circuit.shafts.filter(({ id }) => sounds((setting) => [0, 5, 10].map((at) => withRotation(setting, id, at))));
  const switches = circuit.switches.filter(
    ({ id, rest, positions }) =>
      rest !== undefined && sounds((setting) => positions.map((_, index) => withPosition(setting, id, index))),
  );
  return [...pots, ...switches];
}
