/** What is derived from a circuit: made once, taken over where its inputs stay the same, and never carried along by a copy. */
import { expect, test } from 'vitest';
import {
  altered,
  analysed,
  derivation,
  derive,
  deriveSteps,
  steppedDerivation,
  type AnalysedCircuit,
  type Input,
} from '../../language/circuit/model.js';
import { nets } from '../../language/electrics/index.js';
import { finished } from '../../language/steps.js';
import { createWork } from '../../language/work.js';
import { circuitOf } from './harness.js';

const text = `
part p : single-coil 6k
part output : jack
wire p.hot to output.tip
wire p.ground to output.sleeve
`;

/** A fact that counts how often it is made, and from which circuit. */
function counted(inputs: readonly Input[]) {
  const made: AnalysedCircuit[] = [];
  return { made, fact: derivation(inputs, (circuit) => made.push(circuit)) };
}

test('a fact is made once, at its first use', () => {
  const circuit = circuitOf(text);
  const { made, fact } = counted(['text']);
  expect(made).toEqual([]);
  expect([derive(circuit, fact), derive(circuit, fact)]).toEqual([1, 1]);
  expect(made).toEqual([circuit]);
});

test.each([
  ['joints', ['contacts', 'elements', 'values', 'rests', 'output'], ['joints', 'text']],
  ['elements', ['joints', 'contacts', 'rests', 'output'], ['elements', 'values', 'text']],
  ['switches', ['joints', 'elements', 'values', 'rests', 'output'], ['contacts', 'text']],
  ['shafts', ['joints', 'contacts', 'elements', 'values', 'output'], ['rests', 'text']],
] satisfies readonly (readonly [string, readonly Input[], readonly Input[]])[])(
  'with other %s, facts of all other inputs are those of the circuit that it was',
  (field, kept, lost) => {
    const circuit = circuitOf(text);
    const other = altered(circuit, { [field]: [] });
    const madeFrom = (inputs: readonly Input[]): readonly AnalysedCircuit[] => {
      const { made, fact } = counted(inputs);
      derive(other, fact);
      derive(circuit, fact);
      return made;
    };
    expect(madeFrom(kept)).toEqual([circuit]);
    for (const input of lost) expect(madeFrom([...kept, input]), input).toEqual([other, circuit]);
  },
);

test('nets follow the joints of the circuit that is asked, whatever it was made from', () => {
  const circuit = circuitOf(text);
  const lug = (label: string): number => circuit.lugs.findIndex((one) => one.label === label);
  const [hot, tip] = [lug('p.hot'), lug('output.tip')];
  expect(nets(circuit, []).of[hot]).toBe(nets(circuit, []).of[tip]);
  const cut = altered(circuit, { joints: circuit.joints.slice(1) });
  expect(nets(cut, []).of[hot]).not.toBe(nets(cut, []).of[tip]);
  expect(nets(circuit, []).of[hot]).toBe(nets(circuit, []).of[tip]);
});

test('what is computed for a changed circuit is charged to the search of the one it was', () => {
  const work = createWork(1e6);
  const circuit = analysed(circuitOf(text), { work });
  nets(altered(circuit, { joints: [] }), []);
  expect(work.spent).toBeGreaterThan(0);
});

test('a copy carries no facts: it is no analysed circuit, and can be sent to another thread', () => {
  const circuit = circuitOf(text);
  expect({ ...circuit }).not.toHaveProperty('analysis');
  expect(structuredClone(circuit)).not.toHaveProperty('analysis');
  expect(() => nets({ ...circuit }, [])).toThrow();
});

test('steps that take turns end with one fact', () => {
  const circuit = circuitOf(text);
  const fact = steppedDerivation(['text'], function* () {
    yield;
    return {};
  });
  const [first, second] = [deriveSteps(circuit, fact), deriveSteps(circuit, fact)];
  first.next();
  second.next();
  const made = second.next().value;
  expect(first.next().value).toBe(made);
  expect(finished(deriveSteps(circuit, fact))).toBe(made);
  expect(derive(circuit, fact)).toBe(made);
});

test('a search for a similar circuit is made once, and not for facts of the text', () => {
  const earlier = circuitOf(text);
  let asked = 0;
  const circuit = analysed(circuitOf(`# a comment\n${text}`), {
    earlier: () => (asked++, { circuit: earlier, shares: (input) => input !== 'text' }),
  });
  const [place, shape] = [counted(['text']), counted(['joints'])];
  derive(circuit, place.fact);
  expect([asked, place.made]).toEqual([0, [circuit]]);
  derive(circuit, shape.fact);
  derive(circuit, counted(['values']).fact);
  expect([asked, shape.made]).toEqual([1, [earlier]]);
});
