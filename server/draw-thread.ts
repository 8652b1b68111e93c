/** The thread of Node in which drawings are made, so that the language server answers meanwhile. */
import { parentPort } from 'node:worker_threads';
import { createDrawService, type DrawRequest } from './draw-requests.js';
import { elkLayout } from './elk.js';

const serve = createDrawService(elkLayout, (answer) => parentPort?.postMessage(answer));
parentPort?.on('message', (request: DrawRequest) => serve(request));
