/** The imports as a graph: no cycle anywhere. */
import { describe, expect, test } from 'vitest';
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
    expect(graph.get('language/circuit/signature.ts')).toContain('language/circuit/model.ts');
    expect(graph.get('language/drawing/draw.ts')).toContain('language/drawing/arrange/arrange.ts');
  });
});
