/** The thread in which drawings are laid out: a graph comes in, places go out. */
import { parentPort } from 'node:worker_threads';
import type { LayoutGraph } from '../language/drawing/layout.js';
import { elkLayout } from './elk.js';

parentPort?.on('message', ({ id, graph }: { readonly id: number; readonly graph: LayoutGraph }) => {
  elkLayout(graph).then(
    (places) => parentPort?.postMessage({ id, places }),
    (error: unknown) => parentPort?.postMessage({ id, problem: error instanceof Error ? error.message : String(error) }),
  );
});
