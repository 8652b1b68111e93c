/** What the Testing view gets of the `expect` lines: where they stand, whether they hold, and in which setting. */
import { expect, test } from 'vitest';
import type { ExpectationOutcome } from '../../server/protocol.js';
import { twoPickups } from './circuits.js';
import { startEditor } from './harness.js';

test('a line that does not hold says its setting as written', async () => {
  const editor = await startEditor();
  const lines = 'expect : silent\nexpect selector "both" ,   volume 0: sounds neck\nexpect selector "neck" : silent\n';
  const { uri } = await editor.open('a.lug', `${twoPickups()}${lines}`);
  const outcomes = await editor.ask<ExpectationOutcome[]>('lugwork/checkExpectations', { uri });
  const broken = outcomes.filter(({ held }) => !held);
  expect(broken.map(({ setting }) => setting)).toEqual(['', 'selector "both", volume 0', 'selector "neck"']);
  expect(broken.map(({ claims }) => claims[0]!.text)).toEqual(['silent', 'sounds neck', 'silent']);
});
