/** Properties of lowering: no text throws, the order of statements and the names of parts mean nothing. Seeded, so that a failure comes back. */
import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { lower, type Circuit } from '../../language/circuit/index.js';
import { parseText } from '../../language/grammar/index.js';
import { libraryText, libraryUris } from '../../language/parts/index.js';
import { URI } from './harness.js';

const SEED = 20251125;
/** Milliseconds that a run may take on a busy machine before it is given up. */
const LONG = 60_000;
const folder = new URL('../../examples/', import.meta.url);
const texts = [
  ...readdirSync(folder)
    .filter((name) => name.endsWith('.lug'))
    .map((name) => readFileSync(new URL(name, folder), 'utf8')),
  ...libraryUris.map((uri) => libraryText(uri)!),
];

function circuitOf(text: string, others: readonly string[] = []): Circuit {
  return lower(parseText(URI, text), {
    tree: (uri) => (others.length === 0 ? undefined : parseText(uri, others[uri.length % others.length]!)),
  });
}

/** What can go wrong with a text while one types: words go, come from elsewhere, change places, lines are cut. */
const mutation = fc.record({
  kind: fc.constantFrom('drop', 'double', 'swap', 'cut', 'insert'),
  at: fc.nat(),
  other: fc.nat(),
  word: fc.constantFrom(
    'a',
    '0',
    '-1',
    '1e9',
    '?',
    '"',
    '{',
    '}',
    '.',
    ':',
    ',',
    'type',
    'part',
    'x : x',
    'A0',
    'hot',
    '22nF',
    '__proto__',
    'constructor',
    '😀',
    '\u0000',
  ),
});

function mutate(text: string, mutations: readonly { kind: string; at: number; other: number; word: string }[]): string {
  let words = text.split(/(\s+|[.:,{}])/);
  for (const { kind, at, other, word } of mutations) {
    const i = at % words.length;
    const j = other % words.length;
    if (kind === 'drop') words.splice(i, 1);
    else if (kind === 'double') words.splice(i, 0, words[i]!, ' ');
    else if (kind === 'swap') [words[i], words[j]] = [words[j]!, words[i]!];
    else if (kind === 'cut') words[i] = words[i]!.slice(0, 1);
    else words.splice(i, 0, ` ${word} `);
    if (words.length === 0) words = [''];
  }
  return words.join('');
}

/** Ids point where they should, whatever the text. */
function expectWhole(circuit: Circuit): void {
  const { parts, lugs, elements, joints, switches, shafts } = circuit;
  const isLug = (id: number) => lugs[id]?.id === id;
  expect(
    parts.every(
      (part, id) => part.id === id && part.lugs.every(isLug) && part.elements.every((element) => elements[element]?.part === id),
    ),
  ).toBe(true);
  expect(lugs.every((lug, id) => lug.id === id && parts[lug.part] !== undefined)).toBe(true);
  expect(joints.every((joint) => isLug(joint.a) && isLug(joint.b))).toBe(true);
  expect(elements.every((element, id) => element.id === id && isLug(element.a) && isLug(element.b))).toBe(true);
  expect(switches.every((control) => control.positions.every((position) => position.joins.flat().every(isLug)))).toBe(true);
  expect(shafts.every((shaft) => shaft.tracks.every((track) => elements[track]?.kind === 'track'))).toBe(true);
  const isSane = elements.every((element) => {
    if (element.kind === 'coil' && element.piezo === true) return element.capacitance.value > 0 && element.output >= 0;
    if (element.kind === 'coil') return element.resistance.value > 0 && element.inductance.value > 0 && element.output >= 0;
    return element.kind !== 'track' || (element.resistance.value > 0 && element.empty !== element.full);
  });
  expect(isSane).toBe(true);
  const places = [...circuit.problems, ...circuit.names].map((item) => item.range);
  expect(places.every(({ start, end }) => start.line >= 0 && start.character >= 0 && end.line >= start.line)).toBe(true);
}

test(
  'mutated text never throws, and the circuit holds together',
  () => {
    fc.assert(
      fc.property(fc.constantFrom(...texts), fc.array(mutation, { minLength: 1, maxLength: 12 }), (text, mutations) => {
        expectWhole(circuitOf(mutate(text, mutations), texts));
      }),
      { seed: SEED, numRuns: 200 },
    );
  },
  LONG,
);

test(
  'random words never throw',
  () => {
    const word = fc.constantFrom(
      'part',
      'wire',
      'type',
      'lugs',
      'to',
      'a',
      'b',
      ':',
      '.',
      'pot',
      '{',
      '}',
      '\n',
      '10k',
      'at',
      'joins',
      'expect',
      'coil',
      'from',
      '"x"',
      'also',
      'for',
      'takes',
      '|',
      'use',
      '"y.lug"',
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 80 }), (words) => expectWhole(circuitOf(words.join(' '), texts))),
      { seed: SEED, numRuns: 200 },
    );
  },
  LONG,
);

/** The circuit without ids and places: what stays the same when statements change places. */
function meaning(circuit: Circuit): unknown {
  const label = (id: number) => circuit.lugs[id]!.label;
  return {
    // A part of a type that is not known has the lugs that the text names, as they come.
    parts: circuit.parts
      .map(({ name, type, properties, lugs, untyped }) =>
        JSON.stringify([name, type, properties, untyped === true ? lugs.map(label).sort() : lugs.map(label)], withoutPlaces),
      )
      .sort(),
    joints: circuit.joints
      .map(({ kind, a, b, colour, ownLead }) => JSON.stringify([kind, label(a), label(b), colour, ownLead]))
      .sort(),
    elements: circuit.elements
      .map((element) =>
        JSON.stringify(
          {
            ...element,
            id: 0,
            part: circuit.parts[element.part]!.name,
            a: label(element.a),
            b: label(element.b),
            wiper: 0,
            shaft: 0,
            plus: 0,
            minus: 0,
            inverting: element.kind === 'gain' && element.inverting !== undefined ? label(element.inverting) : '',
            leavesTo: 0,
          },
          withoutPlaces,
        ),
      )
      .sort(),
    switches: circuit.switches
      .map((control) =>
        JSON.stringify([
          control.name,
          control.positions.map(({ key, label: named, joins }) => [key, named, joins.map((group) => group.map(label))]),
        ]),
      )
      .sort(),
    expectations: circuit.expectations.map(({ claims, settings }) => [claims.length, settings.length].join()).sort(),
    problems: circuit.problems.map((problem) => problem.message).sort(),
    output: circuit.output === undefined ? undefined : label(circuit.output.tip),
  };
}

function withoutPlaces(key: string, value: unknown): unknown {
  return key === 'range' ? undefined : value;
}

test(
  'the order of statements changes nothing',
  () => {
    fc.assert(
      fc.property(fc.constantFrom(...texts), fc.integer(), (text, turn) => {
        const tree = parseText(URI, text);
        const order = tree.statements
          .map((_, i) => i)
          .sort((a, b) => ((a * 7919 + turn) % 104729) - ((b * 7919 + turn) % 104729));
        const shuffled = { ...tree, statements: order.map((i) => tree.statements[i]!) };
        expect(meaning(lower(shuffled))).toEqual(meaning(lower(tree)));
      }),
      { seed: SEED, numRuns: 60 },
    );
  },
  LONG,
);

test('one wrong line costs what that line says, and no more', () => {
  const text = texts.find((candidate) => candidate.includes('lever-5'))!;
  const good = circuitOf(text);
  const bad = circuitOf(`${text}\nwire nothing.1 to nowhere.2\n`);
  expect({ ...(meaning(bad) as object), problems: [] }).toEqual(meaning(good));
});
