/** Connectors, and positions that only some parts of a type have: `at … where … joins …`. */
import { describe, expect, test } from 'vitest';
import { describeSound, nets, netOf, restingSetting, withPosition } from '../../language/electrics/index.js';
import { circuitOf, contactsOf, soundCircuit } from './harness.js';

/** Contact n of one half meets contact n of the other, turned round the n-th from the other end. Common practice, written by hand. */
const TABLE: readonly (readonly [type: string, marked: string, reversed: string])[] = [
  ['connector-2', '1a 1b, 2a 2b', '1a 2b, 2a 1b'],
  ['connector-3', '1a 1b, 2a 2b, 3a 3b', '1a 3b, 2a 2b, 3a 1b'],
  ['connector-4', '1a 1b, 2a 2b, 3a 3b, 4a 4b', '1a 4b, 2a 3b, 3a 2b, 4a 1b'],
  ['connector-5', '1a 1b, 2a 2b, 3a 3b, 4a 4b, 5a 5b', '1a 5b, 2a 4b, 3a 3b, 4a 2b, 5a 1b'],
  ['connector-6', '1a 1b, 2a 2b, 3a 3b, 4a 4b, 5a 5b, 6a 6b', '1a 6b, 2a 5b, 3a 4b, 4a 3b, 5a 2b, 6a 1b'],
  ['connector-7', '1a 1b, 2a 2b, 3a 3b, 4a 4b, 5a 5b, 6a 6b, 7a 7b', '1a 7b, 2a 6b, 3a 5b, 4a 4b, 5a 3b, 6a 2b, 7a 1b'],
  [
    'connector-8',
    '1a 1b, 2a 2b, 3a 3b, 4a 4b, 5a 5b, 6a 6b, 7a 7b, 8a 8b',
    '1a 8b, 2a 7b, 3a 6b, 4a 5b, 5a 4b, 6a 3b, 7a 2b, 8a 1b',
  ],
];

/** `1a 1b, 2a 2b`: what lies on one net whatever is set. */
function joinedIn(text: string, part: string): string {
  const circuit = soundCircuit(text);
  const folded = nets(circuit, restingSetting(circuit).positions);
  const lugs = circuit.parts.find(({ name }) => name === part)!.lugs;
  const byNet = new Map<number, string[]>();
  for (const lug of lugs) byNet.set(netOf(folded, lug), [...(byNet.get(netOf(folded, lug)) ?? []), circuit.lugs[lug]!.name]);
  return [...byNet.values()].map((names) => names.join(' ')).join(', ');
}

describe.each(TABLE)('%s', (type, marked, reversed) => {
  test('joins its contacts one to one, for good', () => {
    expect(soundCircuit(`part c : ${type}`).switches).toEqual([]);
    expect(joinedIn(`part c : ${type}`, 'c')).toBe(marked);
  });

  test('can be mated the other way round where it is reversible, and rests as marked', () => {
    const circuit = soundCircuit(`part c : ${type} { reversible }`);
    expect(contactsOf(circuit, 'c')).toEqual([`1: ${marked}`, `reversed: ${reversed}`]);
    expect(circuit.switches[0]!.positions.map(({ label }) => label)).toEqual(['as marked', 'reversed']);
    expect(circuit.switches[0]!.rest).toBe(0);
    expect(circuit.joints).toEqual([]);
    expect(joinedIn(`part c : ${type} { reversible }`, 'c')).toBe(marked);
  });
});

test('a setting may turn it round, and what is soldered to the other end is heard', () => {
  const circuit = soundCircuit(`part a, b : single-coil 6k 2H 100pF
part c : connector-3 { reversible }
part o : jack
wire a.hot to c.1a
wire b.hot to c.3a
wire c.1b to o.tip
wire c.2b to o.sleeve
wire a.ground to b.ground to c.2a
`);
  const rest = restingSetting(circuit);
  expect(describeSound(circuit, rest).text).toBe('a');
  expect(describeSound(circuit, withPosition(rest, circuit.switches[0]!.id, 1)).text).toBe('b');
});

const OWN = `type link : passive {
  lugs p q r
  takes crossed
  positions cross straight
  at straight joins p q r
  at cross where crossed joins p r
  rest straight
}
`;

describe('a type of one’s own', () => {
  test('has the position where the part gives the parameter, wherever in the order it is', () => {
    const circuit = soundCircuit(`${OWN}part l : link { crossed }`);
    expect(contactsOf(circuit, 'l')).toEqual(['cross: p r', 'straight: p q r']);
    expect(circuit.switches[0]!.rest).toBe(1);
  });

  test('joins for good what the only position left joins', () => {
    expect(soundCircuit(`${OWN}part l : link`).switches).toEqual([]);
    expect(joinedIn(`${OWN}part l : link`, 'l')).toBe('p q r');
  });

  test('keeps the others as a switch where several are left', () => {
    const three = OWN.replace('cross straight', 'cross straight off');
    expect(contactsOf(soundCircuit(`${three}part l : link`), 'l')).toEqual(['straight: p q r', 'off: -']);
    expect(soundCircuit(`${three}part l : link`).switches[0]!.rest).toBe(0);
  });
});

test.each([
  ['at cross where crosed joins p r', 'link takes no crosed; declare it: takes crosed'],
  ['at cross where tolerance joins p r', 'tolerance always has a value'],
])('%s is an error', (line, message) => {
  const { problems } = circuitOf(OWN.replace('at cross where crossed joins p r', line));
  expect(problems).toHaveLength(1);
  expect(problems[0]!.message).toContain(message);
});

test('names for positions that a part lacks are an error that says what gives them', () => {
  const { problems } = circuitOf('part c : connector-2 { positions "one" "other" }');
  expect(problems.map(({ message }) => message)).toEqual(['c has no positions to name without { reversible }']);
});

test('a connector that fits one way only can’t be set', () => {
  const { problems } = circuitOf('part c : connector-2\nexpect c reversed : silent');
  expect(problems.map(({ message }) => message)).toEqual(['c (connector-2) is neither a switch nor a pot, so it can’t be set']);
});
