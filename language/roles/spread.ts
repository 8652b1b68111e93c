/** Where a lug leads: through contacts in any of their positions, and through elements. */
import { type AnalysedCircuit, type Element, type LugId } from '../circuit/model.js';
import { append } from '../collections.js';
import { outputsOf, polesOf } from '../electrics/index.js';
import { lugsOf, surroundingsOf, type Surroundings } from './surroundings.js';

/** The classes that the contacts of each class lead to, from a common to its throws and back. */
export function contactsOf(circuit: AnalysedCircuit): ReadonlyMap<number, readonly number[]> {
  const { classOf } = surroundingsOf(circuit);
  const steps = new Map<number, number[]>();
  for (const { common, throws } of polesOf(circuit)) {
    const [first, ...others] = common === undefined ? throws : [common, ...throws];
    if (first === undefined) continue;
    for (const other of others) {
      append(steps, classOf(first), classOf(other));
      append(steps, classOf(other), classOf(first));
    }
  }
  return steps;
}

/** All classes that can be reached from one, through elements as `through` says and through contacts. Ground is an end, and so are those that are barred. */
export function spread(
  { classOf, elementsOn, ground }: Surroundings,
  start: number,
  through: (element: Element) => readonly LugId[],
  contacts: ReadonlyMap<number, readonly number[]> = new Map(),
  barred: ReadonlySet<number> = new Set(),
): ReadonlySet<number> {
  const seen = new Set([start]);
  for (const classId of seen) {
    if (classId === ground || barred.has(classId)) continue;
    for (const next of contacts.get(classId) ?? []) seen.add(next);
    for (const element of elementsOn(classId)) for (const lug of through(element)) seen.add(classOf(lug));
  }
  return seen;
}

/** True for a lug from which nothing leads on to a pickup or an output, except past these other lugs: what is soldered to it is a load, however it is turned. */
export function isDeadEnd(circuit: AnalysedCircuit, lug: LugId, others: readonly LugId[]): boolean {
  const around = surroundingsOf(circuit);
  const { classOf, elementsOn, ground } = around;
  const barred = new Set([ground, ...others.map(classOf)]);
  const tips = new Set(outputsOf(circuit).map(({ tip }) => classOf(tip)));
  const reached = spread(around, classOf(lug), lugsOf, contactsOf(circuit), barred);
  return [...reached].every(
    (classId) => barred.has(classId) || (!tips.has(classId) && !elementsOn(classId).some(({ kind }) => kind === 'coil')),
  );
}
