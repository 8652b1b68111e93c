/** Turns of the server's loop: nothing in the background has one while a request waits that a person waits for. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { inSlices, pause, type Urgency } from '../../server/lsp/messages/pause.js';

test('background work waits until nothing interactive does, each kind in the order in which it came', async () => {
  const order: string[] = [];
  const waits = (name: string, urgency: Urgency): Promise<unknown> => pause(urgency).then(() => order.push(name));
  const background = [1, 2].map((number) => waits(`background ${number}`, 'background'));
  const interactive = Array.from({ length: 20 }, (_, number) => waits(`interactive ${number}`, 'interactive'));
  await Promise.all([...background, ...interactive]);
  expect(order.slice(0, 20)).toEqual(Array.from({ length: 20 }, (_, number) => `interactive ${number}`));
  expect(order.slice(20)).toEqual(['background 1', 'background 2']);
});

/** Steps that record when they run; each is a separate slice. */
function* noted(name: string, count: number, order: string[]): Generator<undefined, void> {
  for (let step = 0; step < count; step++) {
    order.push(name);
    yield;
  }
}

describe('with slices of one step each', () => {
  let now = 0;
  beforeEach(() => void vi.spyOn(performance, 'now').mockImplementation(() => (now += 1000)));
  afterEach(() => void vi.restoreAllMocks());

  test('interactive steps run to their end between two of the background', async () => {
    const order: string[] = [];
    const background = inSlices(noted('background', 6, order), () => false);
    const interactive = inSlices(
      noted('interactive', 6, order),
      () => false,
      () => 'interactive',
    );
    await Promise.all([background, interactive]);
    expect(order).toEqual(['background', ...Array<string>(6).fill('interactive'), ...Array<string>(5).fill('background')]);
  });

  test('work that becomes urgent overtakes what stays in the background', async () => {
    const order: string[] = [];
    let urgency: Urgency = 'background';
    const other = inSlices(noted('other', 6, order), () => false);
    const reading = inSlices(
      noted('reading', 6, order),
      () => false,
      () => urgency,
    );
    urgency = 'interactive';
    await Promise.all([other, reading]);
    expect(order.lastIndexOf('reading')).toBeLessThan(order.lastIndexOf('other') - 2);
  });
});

test('each that waits has a turn of the loop of its own', async () => {
  let turns = 0;
  let isDone = false;
  const count = (): void => {
    turns++;
    if (!isDone) setImmediate(count);
  };
  setImmediate(count);
  await Promise.all(Array.from({ length: 30 }, () => pause('background')));
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
  await pause('background');
  expect(steps).toBe(before);
});
