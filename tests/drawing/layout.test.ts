/** The layout as a function passed in: ELK behind it, a thread around it, the plain one behind both. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { createDrawer, draw, DrawingStopped, renderSvg, simpleLayout } from '../../language/drawing/index.js';
import { placesOf } from '../../language/drawing/arrange/loose.js';
import type { LayoutFunction, LayoutGraph } from '../../language/drawing/layout.js';
import { elkLayout } from '../../server/elk.js';
import { createLayoutThread } from '../../server/layout-thread.js';
import { offences } from './judge.js';
import { circuitOfText } from './support.js';

const folder = mkdtempSync(join(tmpdir(), 'lugwork-layout-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** A thread that answers as the text says. */
function threadOf(name: string, text: string, timeout: number): ReturnType<typeof createLayoutThread> {
  const path = join(folder, `${name}.mjs`);
  writeFileSync(path, `import { parentPort } from 'node:worker_threads';\n${text}\n`);
  return createLayoutThread(pathToFileURL(path), timeout);
}

/** Boxes as parts without a usual place have them, of sizes by rule. */
function graphOf(count: number): LayoutGraph {
  return {
    nodes: Array.from({ length: count }, (_, index) => ({
      id: `part:p${index}`,
      width: 20 + 10 * ((index * 7) % 12),
      height: 20 + 10 * ((index * 5) % 9),
    })),
  };
}

describe.each([
  ['ELK', elkLayout],
  ['the plain layout', (graph: LayoutGraph) => Promise.resolve(simpleLayout(graph))],
] as const)('%s', (_, layout) => {
  test.each([1, 2, 5, 40, 200])('%i boxes: apart, the same each time', async (count) => {
    const graph = graphOf(count);
    const places = await layout(graph);
    expect(await layout(structuredClone(graph))).toEqual(places);
    const boxes = graph.nodes.map((node) => ({ ...node, ...places.get(node.id)! }));
    const clashing = boxes.flatMap((a, index) =>
      boxes
        .slice(index + 1)
        .filter((b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height),
    );
    expect(clashing).toEqual([]);
  });
});

describe('a thread', () => {
  /** More parts without a usual place than are set in a row without asking. */
  const loose = (): ReturnType<typeof circuitOfText> =>
    circuitOfText(
      'part a : junction\npart b : junction\npart c : junction\npart d : junction\npart e : junction\npart output : jack\nwire a to output.tip\n',
    );
  const answer = `parentPort.on('message', ({ id, graph }) => parentPort.postMessage({ id, places: new Map(graph.nodes.map((node, index) => [node.id, { x: 400 * index, y: 0 }])) }));`;

  test('answers', async () => {
    const thread = threadOf('answers', answer, 60_000);
    const { scene, remarks } = await draw(loose(), thread.layout);
    thread.dispose();
    expect(remarks).toEqual([]);
    expect(offences(scene)).toEqual([]);
  });

  test('that never answers is given up with an error, and no other drawing is made', async () => {
    const thread = threadOf('silent', `parentPort.on('message', () => { for (;;); });`, 200);
    await expect(draw(loose(), thread.layout)).rejects.toThrow(
      new DrawingStopped('the drawing was stopped: its layout took longer than 0.2 seconds'),
    );
    thread.dispose();
  });

  test('that takes its time, under a clock that leaps, gives the same picture', async () => {
    const quick = threadOf('quick', answer, 60_000);
    const slow = threadOf('slow', answer.replace(/=> (parentPort.*)\);$/, '=> setTimeout(() => $1, 300));'), 60_000);
    const quiet = renderSvg((await draw(loose(), quick.layout)).scene);
    let minutes = 0;
    vi.spyOn(performance, 'now').mockImplementation(() => ++minutes * 60_000);
    vi.spyOn(Date, 'now').mockImplementation(() => ++minutes * 60_000);
    const hurried = renderSvg((await draw(loose(), slow.layout)).scene);
    vi.restoreAllMocks();
    quick.dispose();
    slow.dispose();
    expect(hurried).toBe(quiet);
  });

  test('that fails says why', async () => {
    const thread = threadOf(
      'fails',
      `parentPort.on('message', ({ id }) => parentPort.postMessage({ id, problem: 'no room' }));`,
      60_000,
    );
    const { remarks } = await draw(loose(), thread.layout);
    thread.dispose();
    expect(remarks).toEqual(['simple layout, because no room']);
  });

  test('that dies is started anew for the next drawing', async () => {
    const thread = threadOf(
      'dies',
      `let count = 0;\nparentPort.on('message', () => { throw new Error('out of breath'); });`,
      60_000,
    );
    const drawer = createDrawer(thread.layout);
    for (let round = 0; round < 2; round++) {
      await expect(drawer.draw(loose())).rejects.toThrow('the drawing was stopped: its layout failed: out of breath');
    }
    thread.dispose();
  });

  test('whose answer lacks a place is not believed', async () => {
    const thread = threadOf(
      'lacks',
      `parentPort.on('message', ({ id }) => parentPort.postMessage({ id, places: new Map() }));`,
      60_000,
    );
    const { remarks } = await draw(loose(), thread.layout);
    thread.dispose();
    expect(remarks[0]).toMatch(/^simple layout, because the layout has no place for \d/);
  });
});

test('whether a layout is asked for is decided by how much there is to place', async () => {
  let asked = 0;
  const counting: LayoutFunction = (graph) => {
    asked++;
    return Promise.resolve(simpleLayout(graph));
  };
  const reasons: string[] = [];
  await placesOf(graphOf(500), counting, (reason) => reasons.push(reason));
  expect(asked).toBe(1);
  expect(reasons).toEqual([]);
  expect((await placesOf(graphOf(501), counting, (reason) => reasons.push(reason))).size).toBe(501);
  expect(reasons).toEqual(['it has 501 parts without a usual place; the limit is 500']);
  expect(asked).toBe(1);
});
