/** The worker in which drawings are made and laid out, so that nobody waits for it who does not want a drawing: one script, a thread of Node for the command and the server, a web worker in the browser. */
import type { LayoutGraph, LayoutResult } from '../language/drawing/index.js';
import { createDrawService, type DrawAnswer, type DrawRequest } from './draw-requests.js';
import { elkLayout } from './elk.js';

interface LayoutRequest {
  readonly id: number;
  readonly graph: LayoutGraph;
}
type Answer = DrawAnswer | { readonly id: number; readonly places: LayoutResult };

/** The worker's global scope in a browser, whose type belongs to the DOM. */
interface Scope {
  importScripts?: unknown;
  postMessage(message: Answer): void;
  onmessage: ((event: { readonly data: DrawRequest | LayoutRequest }) => void) | null;
}
const scope = globalThis as unknown as Scope;

function answer(post: (answer: Answer) => void): (request: DrawRequest | LayoutRequest) => void {
  const serve = createDrawService(elkLayout, post);
  return (request) => {
    if (!('graph' in request)) return serve(request);
    const { id, graph } = request;
    elkLayout(graph).then(
      (places) => post({ id, places }),
      (error: unknown) => post({ id, problem: error instanceof Error ? error.message : String(error) }),
    );
  };
}

if (scope.importScripts !== undefined) {
  const receive = answer((message) => scope.postMessage(message));
  // The layout engine listens on the scope when it is loaded; from here on the messages are ours.
  scope.onmessage = ({ data }) => receive(data);
} else {
  // What is sent before the port has a listener waits in it.
  void import('node:worker_threads').then(({ parentPort }) => {
    const receive = answer((message) => parentPort?.postMessage(message));
    parentPort?.on('message', receive);
  });
}
