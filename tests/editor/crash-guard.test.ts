/** A server that dies again and again is left alone; one that dies now and then is not. */
import { expect, test } from 'vitest';
import { createCrashGuard } from '../../extension/crash-guard.js';

const minute = 60_000;

test('the fifth crash within three minutes is one too many', () => {
  const guard = createCrashGuard();
  expect([0, 1, 2, 3, 4].map((second) => guard.crashed(second * 1000))).toEqual([false, false, false, false, true]);
});

test('crashes far apart never add up', () => {
  const guard = createCrashGuard();
  expect([0, 1, 2, 3, 4, 5, 6].some((step) => guard.crashed(step * minute))).toBe(false);
});

test('a restart by the user begins the count anew', () => {
  const guard = createCrashGuard();
  for (const second of [0, 1, 2, 3]) guard.crashed(second);
  guard.forget();
  expect(guard.crashed(4)).toBe(false);
});
