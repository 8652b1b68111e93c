/** A server that dies again and again is started again more and more slowly; one that dies now and then at once. */
import { expect, test } from 'vitest';
import { createCrashGuard } from '../../extension/crash-guard.js';

const minute = 60_000;

test('from the fifth crash within three minutes on it waits, longer each time, half a minute at most', () => {
  const guard = createCrashGuard();
  const waits = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map((second) => guard.crashed(second * 1000));
  expect(waits).toEqual([0, 0, 0, 0, 1, 2, 4, 8, 16, 30, 30]);
});

test('crashes far apart never add up', () => {
  const guard = createCrashGuard();
  expect([0, 1, 2, 3, 4, 5, 6].map((step) => guard.crashed(step * minute))).toEqual([0, 0, 0, 0, 0, 0, 0]);
});

test('a restart by the user begins the count anew', () => {
  const guard = createCrashGuard();
  for (const second of [0, 1, 2, 3]) guard.crashed(second);
  guard.forget();
  expect(guard.crashed(4)).toBe(0);
});
