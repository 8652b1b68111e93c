/** The web worker in which drawings are made, so that the language server answers meanwhile. */
import { createDrawService, type DrawRequest } from './draw-requests.js';
import { elkLayout } from './elk.js';

/** The worker's global scope, whose type belongs to the DOM. */
interface Scope {
  postMessage(message: unknown): void;
  onmessage: ((event: { readonly data: DrawRequest }) => void) | null;
}
const scope = globalThis as unknown as Scope;

const serve = createDrawService(elkLayout, (answer) => scope.postMessage(answer));
// The layout engine listens on the scope when it is loaded; from here on the messages are ours.
scope.onmessage = ({ data }) => serve(data);
