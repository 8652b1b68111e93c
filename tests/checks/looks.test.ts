/** What a rule keeps while only looks and places change: it may be silent because it was before, so it must not have looked at them. */
import { expect, test } from 'vitest';
import { factsOf, registry } from '../../language/checks/index.js';
import { altered, isSameInMeaning, type AnalysedCircuit, type Joint } from '../../language/circuit/index.js';
import { readCases } from './cases.js';
import { circuitOf, textsIn } from './harness.js';

const looks = ['colour', 'colourRange', 'gauge', 'length', 'mark'] as const satisfies readonly (keyof Joint)[];

/** The circuit, with joints that note which of their looks are read. */
function watched(circuit: AnalysedCircuit, note: (look: string) => void): AnalysedCircuit {
  const joints = circuit.joints.map((joint): Joint => {
    const properties = Object.fromEntries(
      looks.map((look) => [
        look,
        {
          enumerable: true,
          get: () => {
            note(look);
            return joint[look];
          },
        },
      ]),
    );
    return Object.defineProperties({ ...joint }, properties);
  });
  return altered(circuit, { joints });
}

/** Which looks each rule reads in these texts. */
function readIn(texts: readonly string[]): ReadonlyMap<string, ReadonlySet<string>> {
  const found = new Map<string, Set<string>>();
  for (const text of texts) {
    for (const rule of registry) {
      const own = found.get(rule.id) ?? new Set();
      found.set(rule.id, own);
      rule.check(factsOf(watched(circuitOf(text), (look) => own.add(look))));
    }
  }
  return found;
}

test('only a rule that says so reads the looks of a wire', () => {
  // The first case of each rule breaks it, so that it looks at all that it reports.
  const cases = textsIn('cases', '.txt').flatMap(([, text]) => readCases(text).slice(0, 1));
  const found = readIn(cases.map(({ circuit }) => circuit));
  const reading = [...found].filter(([, read]) => read.size > 0).map(([id]) => id);
  expect(reading).toEqual(registry.filter(({ readsLooks }) => readsLooks === true).map(({ id }) => id));
  expect(reading.length).toBeGreaterThan(0);
});

const text = `instrument "Alder Lane no. 61"
part neck : single-coil 6k
part selector : lever-3 { positions "one" "two" "three" }
part output : jack
wire neck.hot to selector.A1 white
wire selector.A0 to output.tip red 24awg
wire neck.ground to output.sleeve
expect selector "one" : sounds neck
`;

test.each<[string, string, string, boolean]>([
  ['a colour', 'A1 white', 'A1 blue', true],
  ['a colour more', 'output.sleeve', 'output.sleeve black', true],
  ['a gauge, a length', 'red 24awg', 'red 22awg 12cm', true],
  ['a line more', 'part output', '\npart output', true],
  ['a comment above a part', 'part neck', '/** Wound here. */\npart neck', false],
  ['a comment between lines', 'part neck', '// Wound here.\npart neck', true],
  ['a bare wire', 'A1 white', 'A1 bare', false],
  ['a value', '6k', '6.1k', false],
  ['a position’s name', '"three"', '"third"', false],
  ['another title', 'no. 61', 'no. 62', false],
  ['no title', 'instrument "Alder Lane no. 61"\n', '', false],
  ['an expectation', 'expect selector "one" : sounds neck', 'expect selector "two" : silent', false],
  ['a wire', 'selector.A1', 'selector.A2', false],
  ['an expectation less', 'expect selector "one" : sounds neck\n', '', false],
  ['a misspelt word', 'red 24awg', 'red 24owg', false],
])('%s', (_, before, after, isSame) => {
  const now = text.replace(before, after);
  expect(now).not.toBe(text);
  expect(isSameInMeaning(circuitOf(text), circuitOf(now))).toBe(isSame);
  expect(isSameInMeaning(circuitOf(now), circuitOf(text))).toBe(isSame);
});
