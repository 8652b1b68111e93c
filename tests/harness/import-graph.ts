/** The graph of the project's own imports, and the cycles in it, for the tests of the architecture. */
import { importsOf, sources, targetOf } from './checkout.js';

/** For each file, the files it imports: paths from the root. */
export type ImportGraph = ReadonlyMap<string, readonly string[]>;

/** What the files of these folders import from one another, imports of types included; packages and generated files are left out. */
export function importGraph(...folders: readonly string[]): ImportGraph {
  const files = new Set(sources(...folders));
  return new Map([...files].map((path) => [path, projectImports(path).filter((target) => files.has(target))]));
}

/** One shortest cycle through each file that is on one, each cycle once, written `a.ts → b.ts → a.ts` from its first file in order. */
export function importCycles(graph: ImportGraph): string[] {
  const cycles = [...graph.keys()].flatMap((file) => {
    const cycle = shortestCycle(graph, file);
    return cycle === undefined ? [] : [written(cycle)];
  });
  return [...new Set(cycles)].sort();
}

function projectImports(path: string): string[] {
  return importsOf(path)
    .filter(({ from }) => from.startsWith('.'))
    .map(({ from }) => targetOf(path, from));
}

/** The files of a shortest way from a file back to itself, without the repeated end. */
function shortestCycle(graph: ImportGraph, start: string): string[] | undefined {
  const paths = [[start]];
  const reached = new Set<string>();
  for (const path of paths) {
    for (const next of graph.get(path.at(-1)!) ?? []) {
      if (next === start) return path;
      if (reached.has(next)) continue;
      reached.add(next);
      paths.push([...path, next]);
    }
  }
  return undefined;
}

function written(cycle: readonly string[]): string {
  const first = cycle.indexOf([...cycle].sort()[0]!);
  const inOrder = [...cycle.slice(first), ...cycle.slice(0, first)];
  return [...inOrder, inOrder[0]!].join(' → ');
}
