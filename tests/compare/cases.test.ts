/** Edited pairs, each with the sentences that were worked out by hand from the circuits before there was a comparison. */
import { describe, expect, test } from 'vitest';
import { cases, sections } from './cases.js';
import { circuitOf, linesOf } from './harness.js';

describe('an edit is told in the sentences expected of it', () => {
  test.each(cases().map((one) => [one.name, one] as const))('%s', (_, one) => {
    expect(circuitOf(one.before).problems).toEqual([]);
    expect(circuitOf(one.after).problems).toEqual([]);
    const reported = sections(linesOf(one.before, one.after));
    const kept = new Map([...reported].filter(([title]) => !one.aside.includes(title)));
    expect(Object.fromEntries(kept)).toEqual(Object.fromEntries(one.expected));
  });

  test('each is told the other way round, and not at all against itself', () => {
    for (const one of cases()) {
      const forth = linesOf(one.before, one.after)[0];
      expect([one.name, linesOf(one.after, one.before)[0]]).toEqual([one.name, forth]);
      expect([one.name, linesOf(one.after, one.after)]).toEqual([one.name, ['no electrical change']]);
    }
  });
});
