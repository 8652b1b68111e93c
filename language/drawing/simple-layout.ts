/** A plain layout that always works: columns in reading order, groups side by side below. For when no better one is to be had. */
import { grid, type Point } from './geometry.js';
import type { LayoutGraph, LayoutNode, LayoutResult } from './layout.js';

const columnGap = 9 * grid;
const rowGap = 5 * grid;

/** Nodes of a group stand in a row of their own, far enough apart that the group's outline fits around them. */
export function simpleLayout(graph: LayoutGraph): LayoutResult {
  const places = new Map<string, Point>();
  const rank = longestPaths(graph);
  const root = (id: string | undefined): string | undefined => {
    const parent = graph.groups.find((group) => group.id === id)?.parent;
    return parent === undefined ? id : root(parent);
  };
  const free = graph.nodes.filter((node) => node.group === undefined);
  let x = 0;
  let bottom = 0;
  for (const column of columnsOf(free, rank)) {
    let y = 0;
    for (const node of column) {
      places.set(node.id, { x, y });
      y += node.height + rowGap;
    }
    bottom = Math.max(bottom, y);
    x += Math.max(...column.map((node) => node.width)) + columnGap;
  }
  const tops = [...new Set(graph.nodes.flatMap((node) => root(node.group) ?? []))].sort();
  for (const top of tops) {
    bottom += 6 * grid;
    const inside = [...new Set(graph.nodes.filter((node) => root(node.group) === top).map((node) => node.group!))].sort();
    let left = 0;
    let height = 0;
    for (const group of inside) {
      for (const node of graph.nodes.filter((other) => other.group === group)) {
        places.set(node.id, { x: left, y: bottom });
        left += node.width + columnGap;
        height = Math.max(height, node.height);
      }
      left += 6 * grid;
    }
    bottom += height + 9 * grid;
  }
  return places;
}

function columnsOf(nodes: readonly LayoutNode[], rank: ReadonlyMap<string, number>): LayoutNode[][] {
  const columns = new Map<number, LayoutNode[]>();
  for (const node of nodes) {
    const column = node.column === 'first' ? -1 : node.column === 'last' ? Infinity : rank.get(node.id)!;
    columns.set(column, [...(columns.get(column) ?? []), node]);
  }
  return [...columns].sort(([a], [b]) => a - b).map(([, column]) => column);
}

/** The longest chain of edges that leads to each node; edges that would close a ring are passed over. */
function longestPaths(graph: LayoutGraph): Map<string, number> {
  const rank = new Map(graph.nodes.map((node) => [node.id, 0]));
  for (let round = 0; round < graph.nodes.length; round++) {
    let isChanged = false;
    for (const { from, to } of graph.edges) {
      const least = Math.min(rank.get(from.node)! + 1, graph.nodes.length);
      if (rank.get(to.node)! >= least) continue;
      rank.set(to.node, least);
      isChanged = true;
    }
    if (!isChanged) break;
  }
  return rank;
}
