/** The language server as a process: over stdio or IPC, as its caller's words say (`--stdio`, `--node-ipc`). */
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { Worker } from 'node:worker_threads';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node.js';
import type { DrawAnswer } from '../draw-requests.js';
import { createDrawingThread } from '../drawing-thread.js';
import { disk } from './texts/disk.js';
import { gateOptions } from './messages/gate.js';
import { startService } from './service.js';

// What lives is about 30 MB; by default V8 lets four times as much lie before it looks for what is dead. Twice is enough.
setFlagsFromString('--heap-growing-percent=100');

const drawing = createDrawingThread(({ answered, failed }) => {
  // Beside this bundle.
  const worker = new Worker(join(__dirname, 'drawing.js'));
  worker.on('message', (answer: DrawAnswer) => answered(answer));
  worker.on('error', (error) => failed(error.message));
  // It waits for work and must not keep the server alive.
  worker.unref();
  return { post: (request) => worker.postMessage(request), stop: () => void worker.terminate() };
});

startService(createConnection(ProposedFeatures.all, gateOptions()), { ...disk, draw: () => drawing });
