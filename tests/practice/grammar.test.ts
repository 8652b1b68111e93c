/** The grammar of practice: the same circuit for the same seed, all families among the draws, and circuits that are correct. */
import { describe, expect, test } from 'vitest';
import { unknownAlarms } from './alarms.js';
import { drawPractice, fewestParts, mostParts } from './index.js';

const drawn = Array.from({ length: 300 }, (_, index) => drawPractice(index + 1));

test('a seed gives the same text again, another seed another one', () => {
  expect(drawPractice(5)).toEqual(drawn[4]);
  expect(new Set(drawn.map(({ text }) => text)).size).toBe(drawn.length);
});

test('sizes are within the limits and reach both ends of them', () => {
  const sizes = drawn.map(({ parts }) => parts);
  expect(Math.min(...sizes)).toBe(fewestParts);
  expect(Math.max(...sizes)).toBeLessThanOrEqual(mostParts);
  expect(Math.max(...sizes)).toBeGreaterThan(32);
});

/** What the trade knows, as far as the grammar draws it. */
const families = [
  ...['1 pickup', '2 pickups', '3 pickups', '4 pickups', 'two jacks', 'two circuits', 'active'],
  ...['single-coil', 'humbucker', 'humbucker-4', 'single-coil-tapped', 'own pickup', 'braided lead'],
  ...[
    'lever-3',
    'lever-4',
    'lever-5',
    'lever-5x4',
    'toggle-3',
    'toggle-3-open',
    'rotary-1x12',
    'rotary-2x6',
    'rotary-3x4',
    'rotary-4x3',
  ],
  ...['four ways', 'on-on-on', 'either', 'on each', 'toggle and one', 'own', 'blend', 'always', 'series or parallel'],
  ...['mini or slide switch', 'push-pull', 'own switch', 'sub-assembly', 'stack'],
  ...['volume each', 'independent volumes', 'treble bleed', 'no-load tone', 'shared capacitor', 'tone switch', 'bass cut'],
  ...['split', 'split to ground', 'split to hot', 'split to resistor', 'series/parallel', 'phase', 'tap'],
  ...['kill', 'mute', 'standby', 'bypass', 'ground: star', 'ground: chain', 'ground: sleeve', 'ground: plate'],
];

test.each(families)('some circuit has: %s', (family) => {
  expect(drawn.some((practice) => practice.families.includes(family))).toBe(true);
});

test('families combine: most pairs of them meet in some circuit', () => {
  const met = families.flatMap((one, index) =>
    families
      .slice(index + 1)
      .map((other) => drawn.some((practice) => [one, other].every((family) => practice.families.includes(family)))),
  );
  expect(met.filter((isMet) => isMet).length / met.length).toBeGreaterThan(0.5);
});

describe('what is drawn is correct, and sounds as it was composed', () => {
  test.each(drawn.slice(0, 12))('seed $seed', (practice) => {
    expect(unknownAlarms(practice)).toEqual([]);
  });
});
