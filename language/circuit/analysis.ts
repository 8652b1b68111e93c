/** What is derived from one circuit, owned by one object that is passed along with it: each fact names the inputs that it is made from. */
import { finished, type Steps } from '../steps.js';
import type { Work } from '../work.js';
import type { Circuit } from './circuit.js';

/**
 * What a fact may be made from. `joints`: lugs and what is soldered to what. `contacts`: the switches. `elements`: kinds and ends of elements.
 * `values`: their values, and the rig. `rests`: the shafts and where they rest. `output`: the jacks. `meaning`: anything but places in the text and
 * the looks of wires (`isSameInMeaning`). `text`: anything, these included.
 */
export type Input = 'joints' | 'contacts' | 'elements' | 'values' | 'rests' | 'output' | 'meaning' | 'text';

/** Inputs of which any field may be a part: only a host that compares two texts knows where they are shared. */
type WholeInput = 'meaning' | 'text';

/** The fields of a circuit that hold each other input. */
const fieldsOf: Readonly<Record<Exclude<Input, WholeInput>, readonly (keyof Circuit)[]>> = {
  joints: ['parts', 'lugs', 'joints'],
  contacts: ['switches'],
  elements: ['parts', 'elements'],
  values: ['elements', 'rig', 'build'],
  rests: ['shafts'],
  output: ['output', 'jacks'],
};

/** How a fact is made, and from which inputs alone. Two circuits in which these inputs are equal have the same fact. */
export interface Derivation<T> {
  readonly inputs: readonly Input[];
  readonly make: (circuit: AnalysedCircuit) => T;
}

/** One that is made in steps, for a host that must stay able to answer. */
export interface SteppedDerivation<T> extends Derivation<T> {
  readonly steps: (circuit: AnalysedCircuit) => Steps<T>;
}

/** A circuit with everything that was derived from it so far. To change one, use `altered`: a copy made by spreading is no analysed circuit. */
export interface AnalysedCircuit extends Circuit {
  readonly analysis: CircuitAnalysis;
}

/** The facts of one circuit. They are made at their first use and live as long as the circuit. */
export interface CircuitAnalysis {
  /** The search that pays for what is computed, where one tries this circuit. */
  readonly work?: Work;
  readonly facts: Map<Derivation<unknown>, unknown>;
  /** Asked once, for the first fact that another circuit could have. */
  earlier(): EarlierCircuit | undefined;
}

/** A circuit that has some inputs in common with this one; facts made from these alone are made once, there. */
export interface EarlierCircuit {
  readonly circuit: AnalysedCircuit;
  readonly shares: (input: Input) => boolean;
}

/** A fact made at once from these inputs. */
export function derivation<T>(inputs: readonly Input[], make: (circuit: AnalysedCircuit) => T): Derivation<T> {
  return { inputs, make };
}

/** A fact made in steps from these inputs. */
export function steppedDerivation<T>(
  inputs: readonly Input[],
  steps: (circuit: AnalysedCircuit) => Steps<T>,
): SteppedDerivation<T> {
  return { inputs, steps, make: (circuit) => finished(steps(circuit)) };
}

export interface AnalysisOptions {
  /** The search that pays for what is computed. */
  readonly work?: Work | undefined;
  /** Finds a circuit that has inputs in common with this one, so that facts made from these alone are taken from there. */
  readonly earlier?: (circuit: AnalysedCircuit) => EarlierCircuit | undefined;
}

/** A circuit ready to be analysed, with no fact made yet. */
export function analysed(circuit: Circuit, { work, earlier }: AnalysisOptions = {}): AnalysedCircuit {
  let found: { readonly earlier: EarlierCircuit | undefined } | undefined;
  const analysis: CircuitAnalysis = {
    facts: new Map<Derivation<unknown>, unknown>(),
    earlier: () => (found ??= { earlier: earlier?.(whole) }).earlier,
    ...(work === undefined ? {} : { work }),
  };
  // Not enumerable: a copy of the circuit, here or in another thread, is without what was derived from the original.
  const whole: AnalysedCircuit = Object.defineProperty({ ...circuit, analysis }, 'analysis', { enumerable: false });
  return whole;
}

/** The circuit with these fields changed. Facts that none of them touches stay those of the circuit that it was. */
export function altered(circuit: AnalysedCircuit, changes: Partial<Circuit>): AnalysedCircuit {
  const shares = (input: Input): boolean => !isWhole(input) && fieldsOf[input].every((field) => !(field in changes));
  const { work } = circuit.analysis;
  return analysed({ ...circuit, ...changes }, { work, earlier: () => ({ circuit, shares }) });
}

function isWhole(input: Input): input is WholeInput {
  return input === 'meaning' || input === 'text';
}

/** A fact of a circuit, made now where it was not made before. */
export function derive<T>(circuit: AnalysedCircuit, what: Derivation<T>): T {
  const owner = ownerOf(circuit, what);
  const { facts } = owner.analysis;
  // A fact is stored under the derivation that made it and under no other.
  if (facts.has(what)) return facts.get(what) as T;
  const made = what.make(owner);
  facts.set(what, made);
  return made;
}

/** The same in steps. Where two callers take turns, the first that ends decides, so that all of them get one object. */
export function* deriveSteps<T>(circuit: AnalysedCircuit, what: SteppedDerivation<T>): Steps<T> {
  const owner = ownerOf(circuit, what);
  const { facts } = owner.analysis;
  if (facts.has(what)) return facts.get(what) as T;
  const made = yield* what.steps(owner);
  if (!facts.has(what)) facts.set(what, made);
  return facts.get(what) as T;
}

/** True where the fact is there already. */
export function isDerived(circuit: AnalysedCircuit, what: Derivation<unknown>): boolean {
  return ownerOf(circuit, what).analysis.facts.has(what);
}

/** The circuit by which a fact is kept: the earliest that has all its inputs in common. */
function ownerOf(circuit: AnalysedCircuit, what: Derivation<unknown>): AnalysedCircuit {
  if (what.inputs.includes('text')) return circuit;
  const earlier = circuit.analysis.earlier();
  return earlier === undefined || !what.inputs.every(earlier.shares) ? circuit : ownerOf(earlier.circuit, what);
}
