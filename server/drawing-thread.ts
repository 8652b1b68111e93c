/** Makes drawings in a thread of its own, one at a time: what waits and is asked for anew is left out, and one that is stopped is an error. */
import type { AnalysedCircuit } from '../language/circuit/index.js';
import { draw, DrawingStopped, simpleLayout, type DrawOptions, type Drawing } from '../language/drawing/index.js';
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

/**
 * Draws a circuit; drawings of the same key follow each other. Rejects with `DrawingStopped` where the thread fails or takes too long, and where a newer
 * drawing of the same key and side was asked for before this one was begun.
 */
export type DrawInThread = (key: string, circuit: AnalysedCircuit, options: DrawOptions) => Promise<Drawing>;

/** Milliseconds after which a drawing is given up: a guard far beyond what any takes, not a choice between two drawings. */
const drawingGuard = 120_000;

interface PendingDrawing {
  readonly request: DrawRequest;
  resolve(drawing: Drawing): void;
  reject(reason: Error): void;
}

/** `start` makes a thread whenever there is none; `timeout` in milliseconds. */
export function createDrawingThread(start: (events: ThreadEvents) => Thread, timeout = drawingGuard): DrawInThread {
  let thread: Thread | undefined;
  let next = 0;
  let current: { readonly pending: PendingDrawing; readonly timer: ReturnType<typeof setTimeout> } | undefined;
  let waiting: readonly PendingDrawing[] = [];

  /** Ends the drawing at hand, and begins with the next. */
  const settle = (use: (pending: PendingDrawing) => void): void => {
    const done = current;
    current = undefined;
    if (done !== undefined) {
      clearTimeout(done.timer);
      use(done.pending);
    }
    const [first, ...rest] = waiting;
    waiting = rest;
    if (first !== undefined) post(first);
  };
  const stop = (reason: string): void => {
    thread?.stop();
    thread = undefined;
    settle(({ reject }) => reject(new DrawingStopped(`the drawing was stopped: ${reason}`)));
  };
  const begin = (): Thread => {
    const started: Thread = start({
      answered: (answer) => {
        if (current?.pending.request.id !== answer.id) return;
        settle(({ resolve, reject }) => ('drawing' in answer ? resolve(answer.drawing) : reject(new Error(answer.problem))));
      },
      failed: (reason) => {
        if (thread === started) stop(reason);
      },
    });
    return started;
  };
  const post = (pending: PendingDrawing): void => {
    current = { pending, timer: setTimeout(() => stop(`it took longer than ${timeout / 1000} seconds`), timeout) };
    thread ??= begin();
    thread.post(pending.request);
  };
  const inThread: DrawInThread = (key, circuit, options) =>
    new Promise((resolve, reject) => {
      const pending: PendingDrawing = { request: { id: next++, key, circuit, options }, resolve, reject };
      if (current === undefined) return post(pending);
      const isOlder = ({ request }: PendingDrawing): boolean => request.key === key && request.options.side === options.side;
      for (const older of waiting.filter(isOlder)) older.reject(new DrawingStopped('a newer drawing was requested'));
      waiting = [...waiting.filter((other) => !isOlder(other)), pending];
    });

  return async (key, circuit, options) => {
    try {
      return await inThread(key, circuit, options);
    } catch (error) {
      if (error instanceof DrawingStopped) throw error;
      const drawing = await draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)), options);
      const reason = error instanceof Error ? error.message : String(error);
      return { ...drawing, remarks: [`simple layout, because the drawing failed: ${reason}`, ...drawing.remarks] };
    }
  };
}
