/** Searches in circuits with thousands of places or findings: they end before the work that they cannot do, and count what they do. */
import { describe, expect, test } from 'vitest';
import { repairs } from '../../language/intent/index.js';
import { createKnown } from '../../language/intent/repair/known.js';
import { usualWork } from '../../language/intent/repair/search.js';
import type { Finding } from '../../language/source.js';
import { createWork, type Work } from '../../language/work.js';
import { circuitOf } from './harness.js';

/** One wire statement along so many splices, none of them on a jack. */
function chainOf(lugs: number): string {
  const names = Array.from({ length: lugs }, (_, i) => `j${i + 1}`);
  return [
    'instrument "Alder Lane no. 40"',
    ...names.map((name) => `part ${name} : junction`),
    `wire ${names.join(' to ')}`,
    '',
  ].join('\n');
}

test('a chain whose pairs of places are more than the budget is given up before the first pair', () => {
  const work = createWork(usualWork);
  expect(repairs(circuitOf(chainOf(4_990)), { work })).toEqual([]);
  expect(work.isSpent).toBe(true);
  // 25 million moves alone would be looked at; what was spent is a few looks at each lug.
  expect(work.spent).toBeLessThan(4_990 * 1_000);
});

test('changes are paid for as they are kept, so that they fit into the memory', () => {
  const text = `instrument "Alder Lane no. 40"\n${Array.from({ length: 400 }, (_, i) => `part v${i} : pot 500k audio\n`).join('')}part out : jack\nwire ${Array.from({ length: 400 }, (_, i) => `v${i}.1 to v${i}.2 to v${i}.3`).join(' to ')} to out.tip\n`;
  let kept = 0;
  const work = createWork(usualWork);
  const counting: Work = {
    limit: work.limit,
    get spent() {
      return work.spent;
    },
    get isSpent() {
      return work.isSpent;
    },
    charge(step, count) {
      work.charge(step, count);
      if (step === 'change') kept += count;
    },
  };
  repairs(circuitOf(text), { work: counting });
  expect(kept).toBeGreaterThan(1_000);
  expect(kept).toBeLessThan(1_500_000);
});

describe('two lists of thousands of findings', () => {
  let looks = 0;
  const range = (line: number): Finding['range'] => ({
    uri: 'file:///no-41.lug',
    start: { line, character: 0 },
    end: { line, character: 1 },
  });
  const finding = (rule: string, line: number): Finding => ({
    rule,
    claim: { rule },
    message: `${rule} ${line}`,
    severity: 'error',
    range: range(line),
    fixes: [],
    related: [],
    get subjects() {
      looks++;
      return [`r${line}.2`];
    },
  });
  const list = (count: number): Finding[] =>
    Array.from({ length: count }, (_, line) => finding(line % 2 === 0 ? 'loose-lead' : 'expectation', line));

  test('are compared in proportion, and every look is paid for', () => {
    const paid: number[] = [];
    for (const count of [250, 2_500]) {
      looks = 0;
      let steps = 0;
      const work: Work = { limit: Infinity, spent: 0, isSpent: false, charge: (_, some) => void (steps += some) };
      const known = createKnown(list(count), work);
      for (const one of list(count)) {
        expect(known.isFresh(one)).toBe(false);
        expect(known.isStill(one)).toBe(true);
      }
      expect(looks).toBeLessThanOrEqual(steps);
      expect(looks).toBeGreaterThan(count);
      paid.push(steps);
    }
    expect(paid[1]! / paid[0]!).toBeLessThan(11);
  });

  test('what is new or about more than before is fresh, what is about less is not', () => {
    const about = (...subjects: string[]): Finding => ({ ...finding('loose-lead', 1), subjects });
    const known = createKnown([about('a', 'b'), about('c')], undefined);
    expect(known.isFresh(about('a'))).toBe(false);
    expect(known.isFresh(about('b', 'a'))).toBe(false);
    expect(known.isFresh(about('a', 'c'))).toBe(true);
    expect(known.isFresh(about('d'))).toBe(true);
    expect(known.isFresh({ ...about('a'), rule: 'floating-metal' })).toBe(true);
    expect(known.isStill(about('c', 'd'))).toBe(true);
    expect(known.isStill(about('d'))).toBe(false);
  });
});
