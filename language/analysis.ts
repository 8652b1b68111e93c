/** What was worked out for the files of a project, kept by what it depends on, so that an edit redoes only what it has changed. */
import { forgetOldest } from './collections.js';
import { factsOf, knownPositions, solvePositions } from './checks/index.js';
import {
  analysed,
  derive,
  deriveSteps,
  isSameInMeaning,
  steppedDerivation,
  topologySignature,
  valuesSignature,
  type AnalysedCircuit,
  type EarlierCircuit,
  type Circuit,
  type ShaftId,
} from './circuit/index.js';
import {
  effectAnywhere,
  effectAnywhereSteps,
  type ControlEffect,
  type MeterReading,
  type PositionTable,
  type ResponseSummary,
  type Setting,
  type Sound,
} from './electrics/index.js';
import { findings, findingSteps, isJudged, type FindingOptions } from './findings.js';
import type { Tree } from './grammar/index.js';
import type { Project } from './project.js';
import type { Finding } from './source.js';
import { finished, type Steps } from './steps.js';

/** What was done so far, so that a test can tell what an edit has set going. */
export interface AnalysisCounters {
  /** Circuits that differ from the one before in any way that can be seen. */
  readonly circuits: number;
  /** Circuits checked. */
  readonly checks: number;
  /** Circuits whose nets were folded anew: another topology, or other rests. */
  readonly folded: number;
  /** Circuits that were solved anew: another topology, or other values. */
  readonly solved: number;
}

export interface Analysis {
  /** The circuit of a file; the same object while no statement that it is made of changes, whatever becomes of the comments between them. `undefined` where there is no file. */
  circuit(uri: string): AnalysedCircuit | undefined;
  /** The same in steps of a few statements each; a text that has changed meanwhile is for the next call. */
  circuitSteps(uri: string): Steps<AnalysedCircuit | undefined>;
  /** All findings, as `findings` gives them. */
  findings(circuit: AnalysedCircuit, options?: FindingOptions): readonly Finding[];
  /** The same in steps of a few milliseconds each, for a host that must stay able to answer. The value returned at the end is kept for `findings`. */
  findingSteps(circuit: AnalysedCircuit, options?: FindingOptions): Steps<readonly Finding[]>;
  /** A row for each setting of the switches, with reading and response. */
  positions(circuit: AnalysedCircuit): PositionTable;
  /** The same in steps of a few milliseconds each; the value returned at the end is kept for `positions`. */
  positionSteps(circuit: AnalysedCircuit): Steps<PositionTable>;
  /** What a shaft does. */
  effect(circuit: AnalysedCircuit, shaft: ShaftId): ControlEffect;
  /** The same in steps of one solved rotation each. */
  effectSteps(circuit: AnalysedCircuit, shaft: ShaftId): Steps<ControlEffect>;
  /** What is heard, what a meter reads at the jack, and the response's peak, in one setting. */
  sound(circuit: AnalysedCircuit, setting: Setting): Sound;
  reading(circuit: AnalysedCircuit, setting: Setting): MeterReading;
  response(circuit: AnalysedCircuit, setting: Setting): ResponseSummary;
  readonly counters: AnalysisCounters;
}

/** Circuits of which everything solved is kept. */
const mostKept = 8;

interface Made {
  readonly source: Circuit;
  readonly circuit: AnalysedCircuit;
  /** The trees that it was made of, by address; for a used file that is not read, why. */
  readonly trees: ReadonlyMap<string, Tree | string | undefined>;
}

/** Makes an analysis over a project. */
export function createAnalysis(project: Project): Analysis {
  const made = new Map<string, Made>();
  /** By address, the first circuit of those that have meant the same since the text last meant something else. */
  const meant = new Map<string, AnalysedCircuit>();
  const solved = createStore();
  const folded = createStore();
  const counters = { circuits: 0, checks: 0, folded: 0, solved: 0 };

  /** The circuit of an earlier text that means the same, is electrically the same, or at least folds alike. */
  const meet = (uri: string, circuit: AnalysedCircuit): EarlierCircuit | undefined => {
    const last = meant.get(uri);
    if (last !== undefined && isSameInMeaning(last, circuit)) return { circuit: last, shares: (input) => input !== 'text' };
    meant.set(uri, circuit);
    const shape = `${topologySignature(circuit)}\n${circuit.shafts.map((shaft) => shaft.rest).join()}`;
    const same = solved.take(`${shape}\n${valuesSignature(circuit)}`, circuit);
    const alike = folded.take(shape, circuit);
    if (same !== circuit) return { circuit: same, shares: (input) => input !== 'text' && input !== 'meaning' };
    counters.solved++;
    if (alike !== circuit) return { circuit: alike, shares: (input) => !['text', 'meaning', 'values'].includes(input) };
    counters.folded++;
    return undefined;
  };

  /** Counts a circuit that is judged for the first time. */
  const counted = (circuit: AnalysedCircuit): AnalysedCircuit => {
    if (!isJudged(circuit)) counters.checks++;
    return circuit;
  };

  const treeOf = (uri: string, file: string): Tree | string | undefined =>
    file === uri ? project.tree(uri) : project.used(file, uri);

  function* circuitSteps(uri: string): Steps<AnalysedCircuit | undefined> {
    const before = made.get(uri);
    if (before !== undefined && [...before.trees].every(([file, tree]) => isSameTree(treeOf(uri, file), tree)))
      return before.circuit;
    yield* project.circuitSteps(uri);
    // A text that has changed between two steps is made whole here: the circuit and the trees kept with it must be of one moment.
    const source = project.circuit(uri);
    if (source === undefined) {
      made.delete(uri);
      meant.delete(uri);
      return undefined;
    }
    const isNew = source !== before?.source;
    if (isNew) counters.circuits++;
    const circuit = isNew ? analysed(source, { earlier: (of) => meet(uri, of) }) : before.circuit;
    const files = [uri, ...(circuit.files ?? [])];
    made.set(uri, { source, circuit, trees: new Map(files.map((file) => [file, treeOf(uri, file)])) });
    return circuit;
  }

  return {
    counters,
    circuit: (uri) => finished(circuitSteps(uri)),
    circuitSteps,
    findings: (circuit, options) => findings(counted(circuit), options),
    findingSteps: (circuit, options) => findingSteps(counted(circuit), options),
    positions: (circuit) => derive(circuit, table),
    positionSteps: (circuit) => deriveSteps(circuit, table),
    effect: (circuit, shaft) => effectAnywhere(circuit, shaft),
    effectSteps: (circuit, shaft) => effectAnywhereSteps(circuit, shaft),
    sound: (circuit, setting) => factsOf(circuit).signal.sound(setting),
    reading: (circuit, setting) => factsOf(circuit).signal.reading(setting),
    response: (circuit, setting) => factsOf(circuit).signal.response(setting),
  };
}

const table = steppedDerivation(['text'], function* (circuit): Steps<PositionTable> {
  yield* solvePositions(circuit, { response: true });
  return knownPositions(circuit, { response: true });
});

/** Equal where the same statements are at the same places with the same faults; what is between them says nothing. */
function isSameTree(now: Tree | string | undefined, before: Tree | string | undefined): boolean {
  if (now === before) return true;
  if (typeof now === 'string' || typeof before === 'string') return false;
  if (now?.statements.length !== before?.statements.length || now === undefined || before === undefined) return false;
  const isSame = (a: unknown, b: unknown): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);
  return now.statements.every((statement, i) => isSame(statement, before.statements[i])) && isSame(now.problems, before.problems);
}

interface Store {
  /** The circuit kept under the key, which is the given one where none was. */
  take(key: string, circuit: AnalysedCircuit): AnalysedCircuit;
}

/** Keeps the circuits asked for last. */
function createStore(): Store {
  const kept = new Map<string, AnalysedCircuit>();
  return {
    take(key, circuit) {
      const found = kept.get(key) ?? circuit;
      kept.delete(key);
      kept.set(key, found);
      forgetOldest(kept, mostKept);
      return found;
    },
  };
}
