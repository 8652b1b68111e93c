/** The imports as a graph: no cycle anywhere, and a stage of language/ is reached through its index.ts. */
import { describe, expect, test } from 'vitest';
import { importsOf, sources, targetOf } from '../harness/checkout.js';
import { importCycles, importGraph } from '../harness/import-graph.js';

const folders = ['language', 'server', 'extension'];

describe('cycles', () => {
  test('no file imports itself by way of others, types included', () => {
    expect(importCycles(importGraph(...folders))).toEqual([]);
  });

  test('the search finds every kind, each once', () => {
    const graph = new Map([
      ['a', ['b', 'd']],
      ['b', ['c']],
      ['c', ['a', 'b']],
      ['d', ['e']],
      ['e', []],
      ['f', ['f', 'a']],
    ]);
    expect(importCycles(graph)).toEqual(['a → b → c → a', 'b → c → b', 'f → f']);
  });

  test('the graph sees imports of types and of values', () => {
    const graph = importGraph(...folders);
    expect(graph.get('language/circuit/signature.ts')).toContain('language/circuit/circuit.ts');
    expect(graph.get('language/drawing/draw.ts')).toContain('language/drawing/arrange/arrange.ts');
  });
});

describe('rooms', () => {
  test('the folders inside a stage, and those of the server and the command, import each other in one direction only', () => {
    const graph = new Map<string, Set<string>>();
    for (const [path, targets] of importGraph(...folders)) {
      const room = roomOf(path);
      if (room === undefined) continue;
      const others = targets.map(roomOf).filter((other) => other !== undefined && other !== room && isBeside(room, other));
      graph.set(room, new Set([...(graph.get(room) ?? []), ...(others as string[])]));
    }
    expect(graph.size).toBeGreaterThan(30);
    expect(importCycles(new Map([...graph].map(([room, others]) => [room, [...others]])))).toEqual([]);
  });
});

describe('the way into a stage', () => {
  test('is its index.ts, for every file outside it; the circuit’s model, its types and the way to its items, is read directly as well', () => {
    const inside = sources(...folders).flatMap((path) =>
      importsOf(path)
        .filter(({ from }) => from.startsWith('.'))
        .filter(({ from }) => isPastIndex(path, targetOf(path, from)))
        .map(({ from }) => `${path} → ${targetOf(path, from)}`),
    );
    expect(inside).toEqual([]);
  });
});

/** True for an import that reaches into the folder of a stage from outside, past its `index.ts`. */
function isPastIndex(path: string, target: string): boolean {
  const stage = /^language\/[^/]+\//.exec(target)?.[0];
  if (stage === undefined || path.startsWith(stage) || target === `${stage}index.ts`) return false;
  return target !== 'language/circuit/model.ts';
}

/** `language/circuit/lower`: the first two folders of a path and the third, where it has one. */
function roomOf(path: string): string | undefined {
  return /^[^/]+\/[^/]+\/[^/]+(?=\/)/.exec(path)?.[0];
}

function isBeside(a: string, b: string): boolean {
  return a.slice(0, a.lastIndexOf('/')) === b.slice(0, b.lastIndexOf('/'));
}
