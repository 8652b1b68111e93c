/** The workshop's own model of one build: where everything lies, the wires to run between, the work to be soldered, and how this shop does it. */
import {
  derivation,
  derive,
  deriveSteps,
  steppedDerivation,
  type AnalysedCircuit,
  type InstrumentRecord,
  type Output,
} from '../circuit/model.js';
import { jointClasses } from '../electrics/index.js';
import type { Steps } from '../steps.js';
import { builtCount, orderPreferences, type OrderPreferences } from './build-settings.js';
import { placesOf } from './places/places.js';
import { measureRuns, type Run } from './places/runs.js';
import { makeWork, type Wiring, type Work } from './plan/work.js';

/** One build, from the places up. Its wires and its work are found at their first use. Functions that need no more than where things lie take `Places`. */
export interface Build extends Wiring {
  /** For what is metered and heard, which the electrics know; all else is here in the workshop's terms. */
  readonly circuit: AnalysedCircuit;
  readonly title?: string;
  /** How many instruments are built alike, and the record of the one whose build this is. */
  readonly batch: number;
  readonly record?: InstrumentRecord;
  /** How many instruments the lists are for. */
  readonly count: number;
  readonly preferences: OrderPreferences;
  /** The jack where the signal leaves. */
  readonly jack?: Output;
  readonly hasBattery: boolean;
  /** What there is to solder. */
  readonly work: Work;
}

/** The build of a circuit, made once for it. */
export function buildOf(circuit: AnalysedCircuit): Build {
  return derive(circuit, build);
}

/** The wires of a build in steps of a few each, for a host that must stay able to answer. */
export function runSteps({ circuit }: Build): Steps<readonly Run[]> {
  return deriveSteps(circuit, runs);
}

const build = derivation(['text'], makeBuild);

const runs = steppedDerivation(['text'], (circuit): Steps<readonly Run[]> => measureRuns(buildOf(circuit)));

const work = derivation(['text'], (circuit): Work => makeWork(buildOf(circuit)));

function makeBuild(circuit: AnalysedCircuit): Build {
  const { title, batch, record, output: jack } = circuit;
  return {
    ...placesOf(circuit),
    circuit,
    batch,
    ...(title === undefined ? {} : { title }),
    ...(record === undefined ? {} : { record }),
    ...(jack === undefined ? {} : { jack }),
    hasBattery: circuit.elements.some(({ kind }) => kind === 'battery'),
    count: builtCount(circuit),
    preferences: orderPreferences(circuit),
    isGround: (lug) => {
      const { of } = jointClasses(circuit);
      return jack !== undefined && of[lug] === of[jack.sleeve];
    },
    get runs() {
      return derive(circuit, runs);
    },
    get work() {
      return derive(circuit, work);
    },
  };
}
