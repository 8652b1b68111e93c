/** What must not change a finding: the order of statements, names, the layout of the text, a wire within a net; and that nothing throws. */
import { altered } from '../../language/circuit/model.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { check } from '../../language/checks/index.js';
import { findings } from '../../language/findings.js';
import { formatText } from '../../language/grammar/index.js';
import { judgeExpectations } from '../../language/intent/index.js';
import type { Finding } from '../../language/source.js';
import { readCases } from './cases.js';
import { circuitOf, findingsOf, textsIn } from './harness.js';

const right = textsIn('correct', '.lug').map(([, text]) => text);
const wrong = textsIn('cases', '.txt').flatMap(([, text]) => readCases(text).map(({ circuit }) => circuit));
/** Texts whose statements stand on one line each, so that their lines can be moved. */
const movable = [...right, ...wrong].filter((text) => !/^type\b|^use\b|^[ \t]+\S/m.test(text));
const options = { seed: 20251125, numRuns: 60 };

/** Rules and what they are about, in an order of their own. */
function gist(found: readonly Finding[], renamed: (name: string) => string = (name) => name): readonly string[] {
  return found
    .map(({ rule, severity, subjects }) => `${severity} ${rule} ${[...new Set(subjects)].map(renamed).sort().join(' ')}`)
    .sort();
}

test('there is something to move', () => {
  expect(movable.length).toBeGreaterThan(100);
});

test('the order of statements changes nothing', () => {
  const shuffled = fc
    .constantFrom(...movable)
    .chain((text) => fc.tuple(fc.constant(text), fc.shuffledSubarray(lines(text), { minLength: lines(text).length })));
  fc.assert(
    fc.property(shuffled, ([text, order]) => {
      // The first jack whose tip is wired is the usual output, so of several the order counts.
      fc.pre((text.match(/: jack/g) ?? []).length < 2);
      // Which of two wires repeats the other, and which joints a loop or an idle chain is told by, follow the order; that they do stays.
      const loops = (found: readonly string[]): readonly string[] =>
        found.map((one) => one.replace(/(repeated-joint|ground-loop|idle-wire) .*/, '$1'));
      expect(loops(gist(findingsOf(order.join('\n'))))).toEqual(loops(gist(findingsOf(text))));
    }),
    options,
  );
});

/** Rules that go by what parts are called, among other things, and the one that misses them where they are set aside. */
const byName = /^\w+ (unlike-twin|one-sided-control|unusual-control|unusual-part|unusual-position|idle-allow) /;

test('a name changes nothing but itself', () => {
  const named = fc.constantFrom(...movable).chain((text) => {
    const names = circuitOf(text)
      .parts.filter((part) => part.parent === undefined && part.family !== 'screen')
      .map(({ name }) => name);
    return fc.tuple(
      fc.constant(text),
      fc.constantFrom(...(names.length > 0 ? names : ['none'])),
      fc.constantFrom('zulu', 'alfa-2', 'Öse'),
    );
  });
  fc.assert(
    fc.property(named, ([text, name, other]) => {
      const swap = (words: string): string =>
        words.replace(new RegExp(`(?<![\\p{L}\\d_.-])${name}(?![\\p{L}\\d_-])`, 'gu'), other);
      // A name inside a string is not the part's.
      const renamed = text
        .split(/("[^"]*")/)
        .map((piece, index) => (index % 2 === 0 ? swap(piece) : piece))
        .join('');
      // The word that names a part may be a word of the language in the same line (`part resistor : resistor`).
      if (circuitOf(renamed).problems.length !== circuitOf(text).problems.length) return;
      const others = (found: readonly string[]): readonly string[] => found.filter((one) => !byName.test(one));
      expect(others(gist(findingsOf(renamed)))).toEqual(others(gist(findingsOf(text), swap)));
    }),
    options,
  );
});

test('the layout of the text changes nothing', () => {
  fc.assert(
    fc.property(fc.constantFrom(...right, ...wrong), (text) => {
      expect(gist(findingsOf(formatText(text)))).toEqual(gist(findingsOf(text)));
    }),
    options,
  );
});

test('a wire within a net changes nothing that is heard', () => {
  const reported = new Set(['repeated-joint', 'ground-loop', 'crowded-lug', 'full-star', 'screen-return', 'earth-colour']);
  const electric = (text: string): readonly string[] => gist(findingsOf(text).filter(({ rule }) => !reported.has(rule)));
  const pairs = fc.constantFrom(...movable).chain((text) => {
    const circuit = circuitOf(text);
    const within = circuit.joints
      .filter(
        ({ kind, a, b }) =>
          kind === 'wire' &&
          a !== b &&
          [a, b].every((lug) => !['switch', 'screen'].includes(circuit.parts[circuit.lugs[lug]!.part]!.family)),
      )
      .map(({ a, b }) => `wire ${circuit.lugs[b]!.label} to ${circuit.lugs[a]!.label}`);
    return fc.tuple(fc.constant(text), fc.constantFrom(...(within.length > 0 ? within : ['// none'])));
  });
  fc.assert(
    fc.property(pairs, ([text, wire]) => {
      expect(electric(`${text}\n${wire}\n`)).toEqual(electric(text));
    }),
    options,
  );
});

describe('nothing throws', () => {
  test('on a text with tokens lost, doubled and exchanged', () => {
    const mutated = fc.tuple(
      fc.constantFrom(...right, ...wrong),
      fc.array(fc.record({ at: fc.nat(), with: fc.nat(), how: fc.constantFrom('lose', 'double', 'exchange') }), {
        minLength: 1,
        maxLength: 4,
      }),
    );
    fc.assert(
      fc.property(mutated, ([text, changes]) => {
        const tokens = text.split(/(\s+)/);
        for (const change of changes) {
          const [a, b] = [change.at % tokens.length, change.with % tokens.length];
          if (change.how === 'lose') tokens.splice(a, 1);
          else if (change.how === 'double') tokens.splice(a, 0, tokens[b]!);
          else [tokens[a], tokens[b]] = [tokens[b]!, tokens[a]!];
        }
        expect(() => findingsOf(tokens.join(''))).not.toThrow();
      }),
      { ...options, numRuns: 300 },
    );
  });

  test('on a circuit whose joints were moved without its text', () => {
    const moved = fc.tuple(
      fc.constantFrom(...right),
      fc.array(fc.tuple(fc.nat(), fc.nat(), fc.boolean()), { minLength: 1, maxLength: 3 }),
    );
    fc.assert(
      fc.property(moved, ([text, moves]) => {
        const circuit = circuitOf(text);
        const joints = [...circuit.joints];
        for (const [which, lug, atA] of moves) {
          const at = which % joints.length;
          joints[at] = { ...joints[at]!, [atA ? 'a' : 'b']: lug % circuit.lugs.length };
        }
        const changed = altered(circuit, { joints });
        expect(() => [check(changed), judgeExpectations(changed), findings(changed)]).not.toThrow();
      }),
      { ...options, numRuns: 150 },
    );
  });
});

function lines(text: string): string[] {
  // A doc comment belongs to the statement after it, and is left where order is of no account.
  return text
    .replace(/\/\*[^]*?\*\//g, '')
    .split('\n')
    .filter((line) => line.trim() !== '');
}
