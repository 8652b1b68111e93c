/** The numbers of wires in the cut list: those that the text gives, and for the others the lowest that are free, in the order of the text. */
import type { Word, WireStatement } from '../../grammar/index.js';
import { valueFor } from '../../collections.js';
import type { SourceRange } from '../../source.js';
import { lugById, partById, type Joint, type LugId } from '../model.js';
import { isOwnLead } from '../own-leads.js';
import { replaceWith } from '../problems.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import type { Draft } from './builder.js';
import { report, type GivenNumber, type Lowering } from './lowering-state.js';

/** The numbers behind `no`, the first piece's first; one too many, or one that is no whole number, is a problem. */
export function readNumbers(state: Lowering, statement: WireStatement, origin: Origin): (GivenNumber | undefined)[] {
  const pieces = statement.ends.length - 1;
  return statement.numbers.flatMap((word, index) => {
    if (isMissing(word)) return [undefined];
    const range = rangeOn(origin, word.range);
    if (index >= pieces) {
      const message = `${pieces === 1 ? 'this wire has one piece' : `this wire has ${pieces} pieces`}, so no ${word.text} is one number too many`;
      report(state, 'property', range, message);
      return [];
    }
    return [numberOf(state, word, range)];
  });
}

function numberOf(state: Lowering, { text }: Word, range: SourceRange): GivenNumber | undefined {
  if (/^[1-9]\d{0,5}$/u.test(text)) return { number: Number(text), range };
  report(state, 'value', range, `${text} is no number of a wire: it takes a whole number from 1 on, such as no 12`);
  return undefined;
}

/**
 * Gives every wire its mark: `W5` off the reel, `L2` for a part's own lead, which are counted apart. A number that the text gives stands; the
 * pieces of a chain behind a numbered one take the next that are free above it; all others the lowest free ones in the order of the text.
 */
export function numberWires(state: Lowering, given: ReadonlyMap<Draft<Joint>, GivenNumber>): void {
  const { builder } = state;
  const circuit = { lugs: builder.lugs, parts: builder.instances.map(({ part }) => part) };
  const lookup = {
    lug: (id: LugId) => lugById(circuit, id),
    partAt: (id: LugId) => partById(circuit, lugById(circuit, id).part),
  };
  const wires = builder.joints.filter(
    (joint) => joint.kind === 'wire' && ![joint.a, joint.b].some((id) => lugById(circuit, id).inner === true),
  );
  const counters = { W: new Counter(), L: new Counter() };
  const letters = new Map(wires.map((wire) => [wire, isOwnLead(lookup, wire) ? ('L' as const) : ('W' as const)]));
  const counterOf = (wire: Draft<Joint>): Counter => counters[valueFor(letters, wire)];
  const numbers = new Map<Draft<Joint>, number>();
  const twice: [Draft<Joint>, GivenNumber, GivenNumber][] = [];
  for (const wire of wires) {
    const own = given.get(wire);
    if (own === undefined) continue;
    const first = counterOf(wire).take(own.number, own);
    if (first === undefined) numbers.set(wire, own.number);
    else twice.push([wire, own, first]);
  }
  let before: Draft<Joint> | undefined;
  for (const wire of wires) {
    const previous = before?.statement === wire.statement ? numbers.get(before) : undefined;
    if (previous !== undefined && !numbers.has(wire)) numbers.set(wire, counterOf(wire).next(previous));
    before = wire;
  }
  for (const wire of wires) {
    const number = numbers.get(wire) ?? counterOf(wire).next(0);
    wire.mark = `${valueFor(letters, wire)}${number}`;
  }
  for (const [wire, own, first] of twice) reportTwice(state, valueFor(letters, wire), own, first, counterOf(wire));
}

function reportTwice(state: Lowering, letter: 'W' | 'L', own: GivenNumber, first: GivenNumber, counter: Counter): void {
  const free = String(counter.peek(0));
  report(
    state,
    'duplicate-name',
    own.range,
    `two wires have the number ${letter}${own.number}; write no ${free} here, which is free`,
    {
      related: [{ range: first.range, message: `${letter}${own.number} is this wire` }],
      fixes: [replaceWith(own.range, free)],
      subjects: [`${letter}${own.number}`],
    },
  );
}

/** Numbers that are taken, from 1 on. */
class Counter {
  readonly #taken = new Map<number, GivenNumber | undefined>();
  #lowest = 1;

  /** Takes a number, or answers who has it. */
  take(number: number, by: GivenNumber): GivenNumber | undefined {
    const first = this.#taken.get(number);
    if (first === undefined) this.#taken.set(number, by);
    return first;
  }

  /** Takes the lowest free number above one. */
  next(above: number): number {
    const number = this.peek(above);
    this.#taken.set(number, undefined);
    return number;
  }

  peek(above: number): number {
    while (this.#taken.has(this.#lowest)) this.#lowest += 1;
    let number = Math.max(this.#lowest, above + 1);
    while (this.#taken.has(number)) number += 1;
    return number;
  }
}
