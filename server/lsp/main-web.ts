/** The language server as a web worker: messages come and go by the worker's own scope. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser.js';
import type { DrawAnswer } from '../draw-requests.js';
import { createDrawingThread, type DrawInThread } from '../drawing-thread.js';
import { gateOptions } from './messages/gate.js';
import { startService } from './service.js';
import type { ServiceHost } from './workspace.js';

/** What a worker offers of the web platform; its types belong to the DOM, which this folder does not know. */
interface WorkerScope {
  readonly Worker: new (address: string) => {
    postMessage(message: unknown): void;
    terminate(): void;
    onmessage: (event: { readonly data: DrawAnswer }) => void;
    onerror: (event: { readonly message?: string }) => void;
  };
  readonly Blob: new (parts: readonly string[], options: { readonly type: string }) => unknown;
  readonly URL: { createObjectURL(blob: unknown): string };
}
const scope = globalThis as unknown as WorkerScope;

let drawing: DrawInThread | undefined;
const host: ServiceHost = {
  draw: ({ drawingScript }) => (drawing ??= drawingScript === undefined ? undefined : drawInWorker(drawingScript)),
};

startService(
  createConnection(new BrowserMessageReader(globalThis as never), new BrowserMessageWriter(globalThis as never), gateOptions()),
  host,
);

function drawInWorker(script: string): DrawInThread {
  return createDrawingThread(({ answered, failed }) => {
    // The script may lie on another origin than the page: a worker is not started from there, but may load it.
    const loader = new scope.Blob([`importScripts(${JSON.stringify(script)});`], { type: 'text/javascript' });
    const worker = new scope.Worker(scope.URL.createObjectURL(loader));
    worker.onmessage = ({ data }) => answered(data);
    worker.onerror = ({ message }) => failed(message ?? 'it could not be started');
    return { post: (request) => worker.postMessage(request), stop: () => worker.terminate() };
  });
}
