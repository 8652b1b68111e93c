/** Drawings in a thread: one at a time, what was superseded left out, what was stopped an error. */
import { expect, test } from 'vitest';
import { draw, DrawingStopped, simpleLayout } from '../../language/drawing/index.js';
import type { DrawRequest } from '../../server/draw-requests.js';
import { createDrawingThread, type ThreadEvents } from '../../server/drawing-thread.js';
import { circuitOf } from './support.js';

const circuit = circuitOf('one-pickup-volume-tone');
const look = { grounds: 'auto', side: 'solder' } as const;

/** A thread that is answered for by the test. */
function fakeThread(): {
  start(events: ThreadEvents): { post(request: DrawRequest): void; stop(): void };
  posted: DrawRequest[];
  events: ThreadEvents[];
} {
  const posted: DrawRequest[] = [];
  const events: ThreadEvents[] = [];
  return {
    posted,
    events,
    start(given) {
      events.push(given);
      return { post: (request) => void posted.push(request), stop: () => undefined };
    },
  };
}

test('of drawings that wait, an older one of the same key and side is left out', async () => {
  const { start, posted, events } = fakeThread();
  const drawIn = createDrawingThread(start, 60_000);
  const drawing = await draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)), look);
  const first = drawIn('a', circuit, look);
  const second = drawIn('a', circuit, look);
  const other = drawIn('a', circuit, { ...look, side: 'player' });
  const third = drawIn('a', circuit, look);
  await expect(second).rejects.toThrow(new DrawingStopped('a newer drawing was requested'));
  for (let at = 0; at < 3; at++) {
    expect(posted.length).toBe(at + 1);
    events[0]!.answered({ id: posted[at]!.id, drawing });
  }
  expect(await Promise.all([first, other, third])).toEqual([drawing, drawing, drawing]);
  expect(posted.length).toBe(3);
});

test('a drawing that takes too long is an error, and the next one gets a thread of its own', async () => {
  const { start, posted, events } = fakeThread();
  const drawIn = createDrawingThread(start, 20);
  await expect(drawIn('a', circuit, look)).rejects.toThrow('the drawing was stopped: it took longer than 0.02 seconds');
  const next = drawIn('a', circuit, look);
  expect(events.length).toBe(2);
  events[1]!.answered({ id: posted[1]!.id, problem: 'no room' });
  expect((await next).remarks[0]).toBe('simple layout, because the drawing failed: no room');
});

test('a thread that dies is an error', async () => {
  const { start, events } = fakeThread();
  const drawn = createDrawingThread(start, 60_000)('a', circuit, look);
  events[0]!.failed('out of memory');
  await expect(drawn).rejects.toThrow('the drawing was stopped: out of memory');
});
