/** The layout as a function passed in: ELK behind it, a thread around it, the plain one behind both. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { createDiagram, createDrawer, draw, DrawingStopped, renderSvg, simpleLayout } from '../../language/drawing/index.js';
import { arrange } from '../../language/drawing/arrange/arrange.js';
import { placesOf } from '../../language/drawing/arrange/first-placement.js';
import type { LayoutFunction, LayoutGraph } from '../../language/drawing/layout.js';
import { elkLayout } from '../../server/elk.js';
import { createLayoutThread } from '../../server/layout-thread.js';
import { offences } from './judge.js';
import { circuitOf, examples } from './support.js';

const folder = mkdtempSync(join(tmpdir(), 'lugwork-layout-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** A thread that answers as the text says. */
function threadOf(name: string, text: string, timeout: number): ReturnType<typeof createLayoutThread> {
  const path = join(folder, `${name}.mjs`);
  writeFileSync(path, `import { parentPort } from 'node:worker_threads';\n${text}\n`);
  return createLayoutThread(pathToFileURL(path), timeout);
}

const asked = new Map<string, Promise<LayoutGraph>>();

/** The graph that an example asks a layout for, made once. */
function graphOf(name: string): Promise<LayoutGraph> {
  const graph =
    asked.get(name) ??
    new Promise<LayoutGraph>((resolve, reject) => {
      const layout: LayoutFunction = (graph) => {
        resolve(graph);
        return Promise.reject(new Error('only asked'));
      };
      arrange(createDiagram(circuitOf(name)), layout, undefined).catch(reject);
    });
  asked.set(name, graph);
  return graph;
}

describe('what a layout is asked', () => {
  test.each(examples)('%s', async (name) => {
    const graph = await graphOf(name);
    const ids = new Set(graph.nodes.map((node) => node.id));
    for (const { from, to } of graph.edges) {
      expect(ids).toContain(from.node);
      expect(ids).toContain(to.node);
      expect(graph.nodes.find((node) => node.id === from.node)!.ports.map((port) => port.id)).toContain(from.port);
      expect(graph.nodes.find((node) => node.id === to.node)!.ports.map((port) => port.id)).toContain(to.port);
    }
    // Ports stand on the edge that they name.
    for (const node of graph.nodes) {
      for (const { x, y, side } of node.ports) {
        const edge = { north: y === 0, south: y === node.height, west: x === 0, east: x === node.width };
        expect(edge[side]).toBe(true);
      }
    }
  });

  test('pickups come first, the jack last', async () => {
    const { nodes } = await graphOf('three-single-coils-lever-5');
    const column = (id: string): string | undefined => nodes.find((node) => node.id === `part:${id}`)!.column;
    expect(['bridge', 'middle', 'neck', 'saddle'].map(column)).toEqual(['first', 'first', 'first', 'first']);
    expect(column('output')).toBe('last');
    expect(column('volume')).toBeUndefined();
  });
});

describe.each([
  ['ELK', elkLayout],
  ['the plain layout', (graph: LayoutGraph) => Promise.resolve(simpleLayout(graph))],
] as const)('%s', (_, layout) => {
  test.each(examples)('%s: nodes apart, the same each time', async (name) => {
    const graph = await graphOf(name);
    const places = await layout(graph);
    expect(await layout(structuredClone(graph))).toEqual(places);
    const boxes = graph.nodes.map((node) => ({ id: node.id, ...places.get(node.id)!, width: node.width, height: node.height }));
    const clashing = boxes.flatMap((a, index) =>
      boxes
        .slice(index + 1)
        .filter((b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height),
    );
    expect(clashing).toEqual([]);
  });
});

describe('a thread', () => {
  const name = 'one-pickup-volume-tone';
  const answer = `parentPort.on('message', ({ id, graph }) => parentPort.postMessage({ id, places: new Map(graph.nodes.map((node, index) => [node.id, { x: 400 * index, y: 0 }])) }));`;

  test('answers', async () => {
    const thread = threadOf('answers', answer, 60_000);
    const { scene, remarks } = await draw(circuitOf(name), thread.layout);
    thread.dispose();
    expect(remarks).toEqual([]);
    expect(offences(scene)).toEqual([]);
  });

  test('that never answers is given up with an error, and no other drawing is made', async () => {
    const thread = threadOf('silent', `parentPort.on('message', () => { for (;;); });`, 200);
    await expect(draw(circuitOf(name), thread.layout)).rejects.toThrow(
      new DrawingStopped('the drawing was stopped: its layout took longer than 0.2 seconds'),
    );
    thread.dispose();
  });

  test('that takes its time, under a clock that leaps, gives the same picture', async () => {
    const quick = threadOf('quick', answer, 60_000);
    const slow = threadOf('slow', answer.replace(/=> (parentPort.*)\);$/, '=> setTimeout(() => $1, 300));'), 60_000);
    const quiet = renderSvg((await draw(circuitOf(name), quick.layout)).scene);
    let minutes = 0;
    vi.spyOn(performance, 'now').mockImplementation(() => ++minutes * 60_000);
    vi.spyOn(Date, 'now').mockImplementation(() => ++minutes * 60_000);
    const hurried = renderSvg((await draw(circuitOf(name), slow.layout)).scene);
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
    const { remarks } = await draw(circuitOf(name), thread.layout);
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
      await expect(drawer.draw(circuitOf(round === 0 ? name : 'phase-switch'))).rejects.toThrow(
        'the drawing was stopped: its layout failed: out of breath',
      );
    }
    thread.dispose();
  });

  test('whose answer lacks a place is not believed', async () => {
    const thread = threadOf(
      'lacks',
      `parentPort.on('message', ({ id }) => parentPort.postMessage({ id, places: new Map() }));`,
      60_000,
    );
    const { remarks } = await draw(circuitOf(name), thread.layout);
    thread.dispose();
    expect(remarks[0]).toMatch(/^simple layout, because the layout has no place for part:/);
  });
});

test('whether a layout is asked for is decided by how much there is to place', async () => {
  let asked = 0;
  const counting: LayoutFunction = (graph) => {
    asked++;
    return Promise.resolve(simpleLayout(graph));
  };
  const graph = (count: number): LayoutGraph => ({
    nodes: Array.from({ length: count }, (_, i) => ({ id: `part:r${i}`, width: 24, height: 24, ports: [] })),
    edges: [],
    links: [],
  });
  expect((await placesOf(graph(500), counting)).fallback).toBeUndefined();
  expect(asked).toBe(1);
  const { places, fallback } = await placesOf(graph(501), counting);
  expect(fallback).toBe('it has 501 parts and wires to place; the limit is 500');
  expect(places.size).toBe(501);
  expect(asked).toBe(1);
});
