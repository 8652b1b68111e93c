/** The language server as a web worker: messages come and go by the worker's own scope. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser.js';
import { startService } from './service.js';

// The worker's global scope has `postMessage` and `onmessage`; its type belongs to the DOM, which this folder does not know.
const scope = globalThis as never;
startService(createConnection(new BrowserMessageReader(scope), new BrowserMessageWriter(scope)));
