/** A plain layout that always works: columns in reading order. For when no better one is to be had. */
import { valueFor } from '../collections.js';
import { grid, type Point } from './geometry.js';
import type { LayoutGraph, LayoutNode, LayoutResult } from './layout.js';

const columnGap = 9 * grid;
const rowGap = 5 * grid;

export function simpleLayout(graph: LayoutGraph): LayoutResult {
  const places = new Map<string, Point>();
  let x = 0;
  for (const column of columnsOf(graph.nodes, longestPaths(graph))) {
    let y = 0;
    for (const node of column) {
      places.set(node.id, { x, y });
      y += node.height + rowGap;
    }
    x += Math.max(...column.map((node) => node.width)) + columnGap;
  }
  return places;
}

function columnsOf(nodes: readonly LayoutNode[], rank: ReadonlyMap<string, number>): LayoutNode[][] {
  const columns = new Map<number, LayoutNode[]>();
  for (const node of nodes) {
    const column = node.column === 'first' ? -1 : node.column === 'last' ? Infinity : valueFor(rank, node.id);
    columns.set(column, [...(columns.get(column) ?? []), node]);
  }
  return [...columns].sort(([a], [b]) => a - b).map(([, column]) => column);
}

/** The longest chain of edges that leads to each node; edges that would close a ring are passed over. */
function longestPaths(graph: LayoutGraph): Map<string, number> {
  const rank = new Map(graph.nodes.map((node) => [node.id, 0]));
  const pairs = [
    ...graph.edges.map(({ from, to }) => [from.node, to.node] as const),
    ...graph.links.map(({ from, to }) => [from, to] as const),
  ];
  for (let round = 0; round < graph.nodes.length; round++) {
    let isChanged = false;
    for (const [from, to] of pairs) {
      const least = Math.min(valueFor(rank, from) + 1, graph.nodes.length);
      if (valueFor(rank, to) >= least) continue;
      rank.set(to, least);
      isChanged = true;
    }
    if (!isChanged) break;
  }
  return rank;
}
