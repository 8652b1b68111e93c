/** Facts about one circuit that several rules need, each worked out at its first use and kept. */
import { type Circuit, partById } from '../../circuit/model.js';
import {
  controlEffect,
  controlEffects,
  enumerate,
  groundNetwork,
  nets,
  type Setting,
  shareEnumeration,
} from '../../electrics/index.js';
import type { Facts } from './facts.js';
import type { Group } from './group.js';
import { lazy } from './lazy.js';
import { createLoss } from './loss.js';
import { createHearing } from './signal/hearing.js';
import { createIntended } from './signal/intended.js';
import { outputFault } from './signal/output-fault.js';
import { stagesOf } from './supplies.js';
import { createJoined } from './wiring/joined.js';
import { endingsOf, endsInsideOf } from './wiring/leads.js';
import { polesOf } from './wiring/poles.js';
import { hasStructuralFault } from './wiring/structure.js';

export type { Facts } from './facts.js';
export type { Group } from './group.js';
export { endsOf, foldJoints } from './wiring/joined.js';
export type { Pole } from './wiring/poles.js';
export { controlAt, controlsIn, describeControl, describeSettings, leading, potsIn, settingsOf, whereSaid } from './words.js';
export { label, labels, listed, ownPart, placeOfInstrument, placeOfLug, placeOfPart } from './words.js';

const kept = new WeakMap<Circuit, Facts>();

/** The facts of a circuit; the same object for the same circuit. */
export function factsOf(circuit: Circuit): Facts {
  const known = kept.get(circuit) ?? makeFacts(circuit);
  kept.set(circuit, known);
  return known;
}

/**
 * Gives a circuit what is known of an earlier one. Where both are `solved` alike (equal topology and values signatures, so that ids mean the
 * same) all that was worked out is kept, and only what speaks of places in the text is made anew; where they only `fold` alike (equal topology,
 * equal rests), what hangs on joints and contacts. Does nothing where facts are known already.
 */
export function shareFacts(circuit: Circuit, earlier: Circuit, alike: 'solved' | 'fold'): void {
  if (kept.has(circuit)) return;
  shareEnumeration(circuit, earlier);
  const { ground, groups, effects, effect, hearing } = factsOf(earlier);
  kept.set(circuit, makeFacts(circuit, alike === 'fold' ? { ground, groups } : { ground, groups, effects, effect, hearing }));
}

type Known = Partial<Pick<Facts, 'ground' | 'groups' | 'effects' | 'effect' | 'hearing'>>;

function makeFacts(circuit: Circuit, known: Known = {}): Facts {
  const enumeration = lazy(() => enumerate(circuit));
  const joined = createJoined(circuit);
  const groups = known.groups ?? lazy(() => groupsOf(circuit, enumeration()));
  const facts: Facts = {
    circuit,
    joined,
    endings: endingsOf(circuit, joined),
    endsInside: lazy(() => endsInsideOf(circuit)),
    hearing:
      known.hearing === undefined
        ? createHearing(circuit, groups)
        : { ...known.hearing, pickups: known.hearing.pickups.map(({ id }) => partById(circuit, id)) },
    loss: createLoss(circuit),
    intended: createIntended(circuit),
    settings: () => enumeration().settings,
    triedAll: () => enumeration().leftOut.length === 0,
    leftOut: () => enumeration().leftOut,
    untried: () => enumeration().untried,
    groups,
    poles: lazy(() => polesOf(circuit)),
    stages: lazy(() => stagesOf(circuit, groups())),
    effects: known.effects ?? lazy(() => controlEffects(circuit)),
    effect: known.effect ?? ((shaft) => controlEffect(circuit, shaft)),
    ground: known.ground ?? lazy(() => groundNetwork(circuit)),
    outputFault: lazy(() => outputFault(facts)),
    isBroken: lazy(() => hasStructuralFault(facts)),
  };
  return facts;
}

function groupsOf(circuit: Circuit, { settings, group, groups }: ReturnType<typeof enumerate>): readonly Group[] {
  const members: Setting[][] = Array.from({ length: groups }, () => []);
  settings.forEach((setting, index) => members[group[index]!]!.push(setting));
  return members
    .filter((of) => of.length > 0)
    .map((of) => {
      const folded = lazy(() => nets(circuit, of[0]!.positions));
      return {
        setting: of[0]!,
        settings: of,
        get folded() {
          return folded();
        },
      };
    });
}
