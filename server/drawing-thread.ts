/** Makes drawings in a thread of its own: one that takes too long is stopped, and the plain layout stands in for it. */
import type { Circuit } from '../language/circuit/index.js';
import { draw, simpleLayout, type DrawOptions, type Drawing } from '../language/drawing/index.js';
import type { DrawAnswer, DrawRequest } from './draw-requests.js';

/** A thread of any kind. */
export interface Thread {
  post(request: DrawRequest): void;
  stop(): void;
}

export interface ThreadEvents {
  answered(answer: DrawAnswer): void;
  failed(reason: string): void;
}

/** Draws a circuit; drawings of the same key follow each other. Never rejects but for a bug of the drawing itself. */
export type DrawInThread = (key: string, circuit: Circuit, options: DrawOptions) => Promise<Drawing>;

/** `start` makes a thread whenever there is none; `timeout` in milliseconds. */
export function createDrawingThread(start: (events: ThreadEvents) => Thread, timeout: number): DrawInThread {
  let thread: Thread | undefined;
  let next = 0;
  const waiting = new Map<number, { resolve(drawing: Drawing): void; reject(reason: Error): void }>();

  const stop = (reason: string): void => {
    thread?.stop();
    thread = undefined;
    for (const { reject } of waiting.values()) reject(new Error(reason));
    waiting.clear();
  };
  const begin = (): Thread => {
    const started: Thread = start({
      answered: (answer) => {
        const asked = waiting.get(answer.id);
        waiting.delete(answer.id);
        if ('drawing' in answer) asked?.resolve(answer.drawing);
        else asked?.reject(new Error(answer.problem));
      },
      failed: (reason) => {
        if (thread === started) stop(reason);
      },
    });
    return started;
  };
  const inThread: DrawInThread = (key, circuit, options) =>
    new Promise((resolve, reject) => {
      thread ??= begin();
      const id = next++;
      const timer = setTimeout(() => stop(`it took longer than ${timeout} ms`), timeout);
      const done =
        <T>(settle: (value: T) => void) =>
        (value: T): void => {
          clearTimeout(timer);
          settle(value);
        };
      waiting.set(id, { resolve: done(resolve), reject: done(reject) });
      thread.post({ id, key, circuit, options });
    });

  return async (key, circuit, options) => {
    try {
      return await inThread(key, circuit, options);
    } catch (error) {
      const drawing = await draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)), options);
      const reason = error instanceof Error ? error.message : String(error);
      return { ...drawing, remarks: [`laid out plainly, since the drawing failed: ${reason}`, ...drawing.remarks] };
    }
  };
}
