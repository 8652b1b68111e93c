/** One mistake: whether it is found, and whether one of the suggested fixes corrects it. */
import type { Circuit } from '../../../language/circuit/model.js';
import { faultsOf, repairs, type Repair } from '../../../language/intent/index.js';
import { behaviourOf, likeness, withoutUnknown, type Behaviour } from './behaviour.js';
import { edited, projectOf, type Example } from './files.js';
import type { Mistake } from './mistakes.js';

/** The example as it should be. */
export interface Model {
  readonly example: Example;
  readonly behaviour: Behaviour;
  /** The same without what hangs on a value written `?`. */
  readonly known: Behaviour;
  readonly wires: string;
}

export interface Outcome {
  readonly example: string;
  readonly mistake: Mistake;
  /** `unread` where the spoilt text has an error; `nets`, `outside`: nothing can be observed, with the proof; `open`: only by what a value written `?` does. */
  readonly seen: 'unread' | 'nets' | 'outside' | 'open' | 'missed' | 'found';
  /** Rules that tell. */
  readonly rules: readonly string[];
  /** Of the repairs offered, in order: does the behaviour come back, and the very wire. */
  readonly offered: readonly { readonly title: string; readonly behaves: boolean; readonly isVery: boolean }[];
  /** Processor time of the repairs, milliseconds. */
  readonly ms: number;
  readonly parts: number;
}

export function modelOf(example: Example): Model {
  const { circuit } = example;
  return {
    example,
    behaviour: behaviourOf(circuit),
    known: behaviourOf(withoutUnknown(circuit)),
    wires: wiresOf(example.circuit),
  };
}

export function tryMistake(model: Model, mistake: Mistake): Outcome {
  const { example } = model;
  const texts = edited(example.texts, mistake.edits);
  const circuit = projectOf(texts).circuit(example.uri)!;
  const common = { example: example.name, mistake, rules: [], offered: [], ms: 0, parts: circuit.parts.length };
  if (circuit.problems.some(({ severity }) => severity === 'error')) return { ...common, seen: 'unread' };
  const like = likeness(model.behaviour, behaviourOf(circuit));
  if (like !== 'different') return { ...common, seen: like };
  const faults = faultsOf(circuit);
  if (faults.length === 0) {
    const isOpen = likeness(model.known, behaviourOf(withoutUnknown(circuit))) !== 'different';
    return { ...common, seen: isOpen ? 'open' : 'missed' };
  }
  const began = processorTime();
  const found = repairs(circuit);
  const ms = processorTime() - began;
  const offered = found.slice(0, 3).map((repair) => judged(model, texts, repair));
  return { ...common, seen: 'found', rules: faults.map(({ rule }) => rule), offered, ms };
}

/** The repair is done to the text, and the text is read again. */
function judged(
  { example, behaviour, wires }: Model,
  texts: ReadonlyMap<string, string>,
  repair: Repair,
): Outcome['offered'][number] {
  const circuit = projectOf(edited(texts, repair.edits)).circuit(example.uri)!;
  if (wiresOf(circuit) !== wiresOf(repair.circuit))
    throw new Error(`${example.name}: ${repair.title}: the text says something else`);
  return {
    title: repair.title,
    behaves: likeness(behaviour, behaviourOf(circuit)) !== 'different',
    isVery: wiresOf(circuit) === wires,
  };
}

/** What is soldered to what, whatever the order. */
export function wiresOf(circuit: Circuit): string {
  const name = (lug: number): string => {
    const { part, label } = circuit.lugs[lug]!;
    // A screen is called after the lugs that its wire leads to.
    return circuit.parts[part]!.family === 'screen' ? 'screen' : label;
  };
  return circuit.joints
    .map(({ kind, a, b }) => `${kind === 'solder' ? 'wire' : kind} ${[name(a), name(b)].sort().join(' ')}`)
    .sort()
    .join('\n');
}

/** Processor time of this process so far, in milliseconds. */
export function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
