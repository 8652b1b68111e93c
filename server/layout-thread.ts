/** Runs a layout in a thread of its own, so that one that takes too long can be stopped and nothing waits for it. */
import { Worker } from 'node:worker_threads';
import { DrawingStopped, type LayoutFunction, type LayoutResult } from '../language/drawing/index.js';

export interface LayoutThread {
  /** Rejects with `DrawingStopped` where the thread fails or is not done in time; the next call starts a fresh one. */
  readonly layout: LayoutFunction;
  /** Ends the thread; what still waits is rejected. */
  dispose(): void;
}

type Answer = { readonly id: number } & ({ readonly places: LayoutResult } | { readonly problem: string });

/** Milliseconds after which a drawing is given up: a guard far beyond what any takes, not a choice between two drawings. */
export const drawingGuard = 120_000;

/** `module` answers `{ id, graph }` with `{ id, places }` or `{ id, problem }`; `timeout` in milliseconds. */
export function createLayoutThread(module: URL, timeout = drawingGuard): LayoutThread {
  let worker: Worker | undefined;
  let next = 0;
  const waiting = new Map<number, { resolve(places: LayoutResult): void; reject(reason: Error): void }>();

  const stop = (reason: string): void => {
    void worker?.terminate();
    worker = undefined;
    for (const { reject } of waiting.values()) reject(new DrawingStopped(reason));
    waiting.clear();
  };
  const start = (): Worker => {
    const started = new Worker(module);
    started.on('message', (answer: Answer) => {
      const asked = waiting.get(answer.id);
      waiting.delete(answer.id);
      if (waiting.size === 0) started.unref();
      if ('places' in answer) asked?.resolve(answer.places);
      else asked?.reject(new Error(answer.problem));
    });
    const fail = (reason: string): void => {
      if (worker === started) stop(`the drawing was stopped: its layout failed: ${reason}`);
    };
    // What is thrown need not be an error.
    started.on('error', (error: unknown) => fail(error instanceof Error && error.message ? error.message : String(error)));
    started.on('exit', () => fail('its thread ended'));
    return started;
  };

  return {
    layout: (graph) =>
      new Promise((resolve, reject) => {
        worker ??= start();
        worker.ref();
        const id = next++;
        const timer = setTimeout(
          () => stop(`the drawing was stopped: its layout took longer than ${timeout / 1000} seconds`),
          timeout,
        );
        const done =
          <T>(settle: (value: T) => void) =>
          (value: T): void => {
            clearTimeout(timer);
            settle(value);
          };
        waiting.set(id, { resolve: done(resolve), reject: done(reject) });
        worker.postMessage({ id, graph });
      }),
    dispose: () => stop('the layout was ended'),
  };
}
