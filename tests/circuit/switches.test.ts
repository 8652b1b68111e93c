/** Every standard switch: its contacts against a table written by hand, each row with its source or marked as common practice. */
import { describe, expect, test } from 'vitest';
import { standardTypeInfos } from '../../language/circuit/index.js';
import { contactsOf, soundCircuit } from './harness.js';

/** A switch maker's catalogue, column "connected terminals". */
const CATALOGUE = 'catalogue';
/** Common practice: no source. */
const PRACTICE = 'common practice';
/** D. Eddie, "3-ways and 5-ways". */
const EDDIE = 'D. Eddie';

const throws = (poles: string, count: number): string[] =>
  Array.from({ length: count }, (_, i) => `${i + 1}: ${[...poles].map((pole) => `${pole}0 ${pole}${i + 1}`).join(', ')}`);

const TABLE: readonly (readonly [type: string, source: string, contacts: readonly string[], rest?: number])[] = [
  ['lever-3', EDDIE, ['1: A0 A1, B0 B1', '2: A0 A2, B0 B2', '3: A0 A3, B0 B3']],
  ['lever-4', PRACTICE, ['1: A0 A1, B0 B1', '2: A0 A2, B0 B2', '3: A0 A3, B0 B3', '4: A0 A4, B0 B4']],
  // In between two throws the common joins both neighbours.
  [
    'lever-5',
    PRACTICE,
    ['1: A0 A1, B0 B1', '2: A0 A1 A2, B0 B1 B2', '3: A0 A2, B0 B2', '4: A0 A2 A3, B0 B2 B3', '5: A0 A3, B0 B3'],
  ],
  [
    'lever-6',
    PRACTICE,
    ['1: A0 A1, B0 B1', '2: A0 A2, B0 B2', '3: A0 A3, B0 B3', '4: A0 A4, B0 B4', '5: A0 A5, B0 B5', '6: A0 A6, B0 B6'],
  ],
  ['lever-5x4', PRACTICE, throws('ABCD', 5)],
  ['toggle-3', 'published', ['up: A out', 'middle: A B out', 'down: B out']],
  ['toggle-3-open', PRACTICE, ['up: A outA', 'middle: A outA, B outB', 'down: B outB']],
  ['slide-dpdt', CATALOGUE, ['1: A0 A1, B0 B1', '2: A0 A2, B0 B2']],
  ['mini-dpdt', CATALOGUE, ['1: A0 A1, B0 B1', '2: A0 A2, B0 B2']],
  ['mini-dpdt-on', CATALOGUE, ['1: A0 A1, B0 B1', 'middle: A0 A1, B0 B2', '3: A0 A2, B0 B2']],
  ['mini-dpdt-on-mirror', CATALOGUE, ['1: A0 A1, B0 B1', 'middle: A0 A2, B0 B1', '3: A0 A2, B0 B2']],
  ['mini-dpdt-off', CATALOGUE, ['1: A0 A1, B0 B1', 'middle: -', '3: A0 A2, B0 B2']],
  ['spst', CATALOGUE, ['on: A0 A1', 'off: -']],
  ['mini-spdt', CATALOGUE, ['1: A0 A1', '2: A0 A2']],
  ['mini-spdt-off', CATALOGUE, ['1: A0 A1', 'middle: -', '3: A0 A2']],
  ['push-on', PRACTICE, ['rest: -', 'pressed: A0 A1'], 0],
  ['push-off', PRACTICE, ['rest: A0 A1', 'pressed: -'], 0],
  ['relay', CATALOGUE, ['rest: A0 A1, B0 B1', 'energised: A0 A2, B0 B2'], 0],
  ['optocoupler', PRACTICE, ['dark: -', 'lit: middle b'], 0],
  ['rotary-1x12', 'published', throws('A', 12)],
  ['rotary-2x6', 'published', throws('AB', 6)],
  ['rotary-3x4', 'published', throws('ABC', 4)],
  ['rotary-4x3', 'published', throws('ABCD', 3)],
  ['pot-push-pull', PRACTICE, ['down: A0 A1, B0 B1', 'up: A0 A2, B0 B2']],
  ['pot-push-push', PRACTICE, ['down: A0 A1, B0 B1', 'up: A0 A2, B0 B2']],
  // A mono plug joins ring and sleeve: published.
  ['jack-stereo', 'published', ['empty: -', 'mono: ring sleeve', 'stereo: -'], 1],
  ['jack-switched', PRACTICE, ['empty: tip tip-switch', 'plugged: -'], 1],
];

describe('contacts', () => {
  test('the table has a row for every standard type that has positions, but those with positions that a part may lack', () => {
    const withPositions = standardTypeInfos().filter(
      ({ positions }) => positions.length > 0 && positions.every(({ where }) => where === undefined),
    );
    expect(TABLE.map(([type]) => type).sort()).toEqual(withPositions.map(({ name }) => name).sort());
  });

  test.each(TABLE)('%s (%s)', (type, _source, contacts, rest) => {
    const circuit = soundCircuit(`part s : ${type}`);
    expect(contactsOf(circuit, 's')).toEqual(contacts);
    expect(circuit.switches[0]!.rest).toBe(rest);
  });
});

test('positions are numbered from 1 and bear the builder’s names where he gives them', () => {
  const circuit = soundCircuit('part s : toggle-3 { positions "neck" "both", "bridge" }');
  expect(circuit.switches[0]!.positions.map(({ number, key, label }) => [number, key, label])).toEqual([
    [1, 'up', 'neck'],
    [2, 'middle', 'both'],
    [3, 'down', 'bridge'],
  ]);
});

test('a stop washer leaves the first positions of a rotary switch, and the names are as many', () => {
  const circuit = soundCircuit('part s : rotary-2x6 { stop 3, positions "a" "b" "c" }');
  expect(contactsOf(circuit, 's')).toEqual(throws('AB', 3));
});

test('a switch that rests may rest elsewhere on one part', () => {
  expect(soundCircuit('part s : jack-stereo { rest stereo }').switches[0]!.rest).toBe(2);
});
