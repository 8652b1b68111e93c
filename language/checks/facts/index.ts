/** Facts about one circuit that several rules need, each worked out at its first use and kept. */
import { type AnalysedCircuit, derivation, derive, type Input } from '../../circuit/model.js';
import { controlEffect, controlEffects, enumerate, groundNetwork, nets, polesOf, type Setting } from '../../electrics/index.js';
import type { Facts } from './facts.js';
import type { Group } from './group.js';
import { lazy } from '../../lazy.js';
import { createUnreadParts } from './unread-parts.js';
import { createSignalAnalysis, pickupsOf } from './signal/signal-analysis.js';
import { createIntended } from './signal/intended.js';
import { outputFault } from './signal/output-fault.js';
import { stagesOf } from './supplies.js';
import { createJoined } from './wiring/joined.js';
import { endingsOf, endsInsideOf } from './wiring/leads.js';
import { hasStructuralFault } from './wiring/structure.js';
import { itemAt } from '../../collections.js';

export { lugLabel } from '../../circuit/model.js';
export { abridged } from '../../words.js';
export type { Facts } from './facts.js';
export type { Group } from './group.js';
export type { Pole } from '../../electrics/index.js';
export { endsOf } from './wiring/ends.js';
export { foldJoints } from './wiring/joined.js';
export { controlAt, controlsIn, describeControl, describeSettings, leading, potsIn, settingsOf, whereSaid } from './words.js';
export { rowsOf } from './rows.js';
export { lugLabels, ownPart, placeOfInstrument, placeOfJoint, placeOfLug, placeOfPart } from './words.js';

/** The facts of a circuit; the same object for the same circuit. */
export function factsOf(circuit: AnalysedCircuit): Facts {
  return derive(circuit, facts);
}

const folding: readonly Input[] = ['joints', 'contacts', 'elements', 'rests', 'output'];
const solving: readonly Input[] = [...folding, 'values'];
const groups = derivation(folding, (circuit) => groupsOf(circuit));
const ground = derivation(folding, groundNetwork);
const effects = derivation(solving, controlEffects);
const signal = derivation(solving, (circuit) => createSignalAnalysis(circuit, (at) => derive(at, groups)));
const facts = derivation(['text'], makeFacts);

function makeFacts(circuit: AnalysedCircuit): Facts {
  const joined = createJoined(circuit);
  const pickups = lazy(() => pickupsOf(circuit));
  const enumeration = (): ReturnType<typeof enumerate> => enumerate(circuit);
  const facts: Facts = {
    circuit,
    joined,
    endings: endingsOf(circuit, joined),
    endsInside: lazy(() => endsInsideOf(circuit)),
    signal: {
      ...derive(circuit, signal),
      get pickups() {
        return pickups();
      },
    },
    unread: createUnreadParts(circuit),
    intended: createIntended(circuit),
    settings: () => enumeration().settings,
    triedAll: () => enumeration().leftOut.length === 0,
    leftOut: () => enumeration().leftOut,
    untried: () => enumeration().untried,
    groups: () => derive(circuit, groups),
    poles: lazy(() => polesOf(circuit)),
    stages: lazy(() => stagesOf(circuit, derive(circuit, groups))),
    effects: () => derive(circuit, effects),
    effect: (shaft) => controlEffect(circuit, shaft),
    ground: () => derive(circuit, ground),
    outputFault: lazy(() => outputFault(facts)),
    isBroken: lazy(() => hasStructuralFault(facts)),
  };
  return facts;
}

function groupsOf(circuit: AnalysedCircuit): readonly Group[] {
  const { settings, group, groups } = enumerate(circuit);
  const members: Setting[][] = Array.from({ length: groups }, () => []);
  settings.forEach((setting, index) => itemAt(members, group[index] ?? -1).push(setting));
  return members.flatMap((settings): readonly Group[] => {
    const [setting] = settings;
    if (setting === undefined) return [];
    const folded = lazy(() => nets(circuit, setting.positions));
    return [
      {
        setting,
        settings,
        get folded() {
          return folded();
        },
      },
    ];
  });
}
