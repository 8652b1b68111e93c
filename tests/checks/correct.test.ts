/** Right wirings, usual and unusual: not one of them may bring an error or a warning. */
import { expect, test } from 'vitest';
import { findingsOf, line, textsIn } from './harness.js';

const circuits = textsIn('correct', '.lug');

test('there are many of them', () => {
  expect(circuits.length).toBeGreaterThanOrEqual(25);
});

test.each(circuits)('%s', (_, text) => {
  const reported = findingsOf(text).filter(({ severity }) => severity === 'error' || severity === 'warning');
  expect(reported.map(line)).toEqual([]);
});
