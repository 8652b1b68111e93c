/** The one script that draws, as a thread of Node: it answers circuits and bare graphs, as a module and as a plain script. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { build, type BuildOptions } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { LayoutGraph } from '../../language/drawing/index.js';
import { createProject } from '../../language/project.js';
import type { DrawAnswer } from '../../server/draw-requests.js';
import { createLayoutThread } from '../../server/layout-thread.js';
import { root } from '../harness/checkout.js';

const folder = mkdtempSync(join(tmpdir(), 'lw-draw-'));
const text = 'part coil : single-coil 6k 2H 100pF\npart out : jack\nwire coil.hot to out.tip\nwire coil.ground to out.sleeve\n';
const graph: LayoutGraph = { nodes: [] };

beforeAll(async () => {
  const { drawingBundle } = (await import(join(root, 'extension', 'scripts', 'bundles.mjs'))) as { drawingBundle: BuildOptions };
  for (const outfile of ['drawing.js', 'drawing.cjs'])
    await build({ ...drawingBundle, absWorkingDir: root, bundle: true, logLevel: 'warning', outfile: join(folder, outfile) });
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test.each(['drawing.js', 'drawing.cjs'])('%s draws a circuit', async (name) => {
  const circuit = createProject({ read: (uri) => (uri === 'file:///x.lug' ? text : undefined) }).circuit('file:///x.lug')!;
  const worker = new Worker(join(folder, name));
  const answered = new Promise<DrawAnswer>((resolve, reject) => worker.once('message', resolve).once('error', reject));
  worker.postMessage({ id: 7, key: 'x', circuit, options: {} });
  const answer = await answered;
  await worker.terminate();
  expect(answer).toMatchObject({ id: 7, drawing: { scene: { version: 1 }, remarks: [] } });
});

test('a bare graph is laid out by the same thread', async () => {
  const thread = createLayoutThread(new URL(`file://${join(folder, 'drawing.js')}`), 20_000);
  expect(await thread.layout(graph)).toEqual(new Map());
  const node = { id: 'a', width: 10, height: 10, ports: [], group: undefined, column: undefined };
  expect([...(await thread.layout({ ...graph, nodes: [node] as never })).keys()]).toEqual(['a']);
  thread.dispose();
});
