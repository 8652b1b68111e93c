/** Turns of the server's loop: a request that was just asked comes before work that goes on, and background work is not starved. */
import { expect, test } from 'vitest';
import { inSlices, pause } from '../../server/lsp/pause.js';

test('what was just asked has its turn before what goes on, and that before the background', async () => {
  const order: string[] = [];
  await Promise.all(
    (['background', 'going on', 'asked'] as const).map((urgency) => pause(urgency).then(() => order.push(urgency))),
  );
  expect(order).toEqual(['asked', 'going on', 'background']);
});

test('background work has one turn in five while requests go on', async () => {
  const order: string[] = [];
  const waiting = Array.from({ length: 20 }, () => pause('going on').then(() => order.push('request')));
  const background = Array.from({ length: 4 }, () => pause('background').then(() => order.push('background')));
  await Promise.all([...waiting, ...background]);
  expect(order.flatMap((one, index) => (one === 'background' ? [index] : []))).toEqual([4, 9, 14, 19]);
});

test('each that waits has a turn of the loop of its own', async () => {
  let turns = 0;
  let isDone = false;
  const count = (): void => {
    turns++;
    if (!isDone) setImmediate(count);
  };
  setImmediate(count);
  await Promise.all(Array.from({ length: 30 }, () => pause()));
  isDone = true;
  expect(turns).toBeGreaterThanOrEqual(30);
});

test('steps that are given up are not gone on with', async () => {
  let steps = 0;
  function* endless(): Generator<undefined, never> {
    for (;;) {
      steps++;
      yield;
    }
  }
  expect(await inSlices(endless(), () => true)).toBeUndefined();
  const before = steps;
  await pause();
  expect(steps).toBe(before);
});
