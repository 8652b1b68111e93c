/** The question to the layout: blocks as boxes, lugs as ports, wires as edges in reading order from the pickups to the jack. */
import type { Diagram, DiagramRun } from '../diagram.js';
import { grid } from '../geometry.js';
import type { LayoutEdge, LayoutGraph, LayoutNode, LayoutPort } from '../layout.js';
import { compareText } from '../order.js';
import { textWidth } from '../text-measure.js';
import type { Block } from './block.js';
import { topGroup } from './passage.js';
import { placedPads, type PlacedSymbol } from './placed.js';

export const groupStyle = { size: 11, bold: true } as const;
/** Room around what a group holds: for its name above. */
export const groupPadding = { top: 3 * grid, side: 2 * grid } as const;

/** `choice` says in which of its ways each slot lies. */
export function createGraph(diagram: Diagram, blocks: readonly Block[], choice: ReadonlyMap<string, number>): LayoutGraph {
  const blockOfLug = new Map<string, Block>();
  const ports = new Map<string, LayoutPort>();
  const kinds = new Map<string, Set<string>>();
  for (const block of blocks) {
    for (const placed of placedIn(block, choice)) {
      kinds.set(block.id, (kinds.get(block.id) ?? new Set()).add(placed.part.kind));
      for (const pad of placedPads(placed)) {
        blockOfLug.set(pad.lug, block);
        const [access] = pad.accesses;
        if (access) ports.set(pad.lug, portOf(block, pad.lug, access));
      }
    }
  }
  const runs = diagram.runs.filter((run) => {
    const [a, b] = [blockOfLug.get(run.from), blockOfLug.get(run.to)];
    return a !== undefined && b !== undefined && a !== b;
  });
  const rank = ranks(blocks, kinds, runs, (lug) => blockOfLug.get(lug)!.id);
  const used = new Set(runs.flatMap((run) => [run.from, run.to]));

  const nodes = blocks.map((block): LayoutNode => {
    const own = [...ports.values()].filter((port) => used.has(port.id) && blockOfLug.get(port.id) === block);
    const column = columnOf(kinds.get(block.id)!, block);
    const group = block.plate === undefined ? block.group : undefined;
    return {
      id: block.id,
      width: block.width,
      height: block.height,
      ports: own,
      ...(column === undefined ? {} : { column }),
      ...(group === undefined ? (block.plate === undefined ? {} : { group: block.plate }) : { group }),
    };
  });
  const far = cavityDistances(diagram, blocks, kinds);
  const depth = (block: Block): number => far.get(topGroup(diagram, block.group) ?? '') ?? NaN;
  // The signal gives the drawing its shape, and the wire to the jack's sleeve its end. Another ground wire shapes it only where a part has
  // no signal, so that a ground wire moved moves little else.
  const bySignal = new Set(
    runs.filter((run) => !run.ground).flatMap((run) => [run.from, run.to].map((lug) => blockOfLug.get(lug)!)),
  );
  const isShaping = (run: DiagramRun): boolean => {
    const ends = [run.from, run.to].map((lug) => blockOfLug.get(lug)!);
    return !run.ground || ends.some((block) => !bySignal.has(block) || kinds.get(block.id)!.has('jack'));
  };
  const shaping = runs.filter(isShaping);
  const edges = shaping.map((run): LayoutEdge => {
    const ends = [run.from, run.to].map((lug) => ({
      node: blockOfLug.get(lug)!.id,
      port: lug,
      depth: depth(blockOfLug.get(lug)!),
    }));
    // Between cavities the channels give the order, else the way of the signal does.
    ends.sort((a, b) => b.depth - a.depth || rank.get(a.node)! - rank.get(b.node)! || compareText(a.node, b.node));
    const [from, to] = ends.map(({ node, port }) => ({ node, port })) as [LayoutEdge['from'], LayoutEdge['to']];
    return { id: run.id, from, to, weight: run.ground ? 1 : run.kind === 'wire' ? 4 : 8 };
  });
  const groups = diagram.groups.map((group) => ({
    id: group.id,
    padding: groupPadding,
    minimum: {
      width: Math.min(300, textWidth([group.name, ...group.notes].join(', '), groupStyle)) + 2 * grid,
      height: 5 * grid,
    },
    ...(group.parent === undefined ? {} : { parent: group.parent }),
  }));
  return { nodes, edges, groups, links: linksOf(diagram, far) };
}

export function placedIn(block: Block, choice: ReadonlyMap<string, number>): PlacedSymbol[] {
  return block.slots.flatMap((slot) => slot.ways[choice.get(slot.id) ?? 0]!);
}

/** Channels in reading order: towards the cavity that holds the jack. */
function linksOf(diagram: Diagram, far: ReadonlyMap<string, number>): LayoutGraph['links'] {
  return diagram.channels.map(({ id, from, to }) => {
    const [a, b] = [far.get(from) ?? Infinity, far.get(to) ?? Infinity];
    return a >= b ? { id, from, to } : { id, from: to, to: from };
  });
}

/** How many channels lie between each cavity and the one that holds a jack. */
function cavityDistances(
  diagram: Diagram,
  blocks: readonly Block[],
  kinds: ReadonlyMap<string, ReadonlySet<string>>,
): Map<string, number> {
  const distance = new Map<string, number>();
  for (const block of blocks)
    if (block.group !== undefined && kinds.get(block.id)!.has('jack')) distance.set(topGroup(diagram, block.group)!, 0);
  for (let isChanged = true; isChanged;) {
    isChanged = false;
    const ends = diagram.channels.flatMap(({ from, to }) => [[from, to] as const, [to, from] as const]);
    for (const [a, b] of ends) {
      if (!distance.has(a) || distance.has(b)) continue;
      distance.set(b, distance.get(a)! + 1);
      isChanged = true;
    }
  }
  return distance;
}

/** The first layer is what lies under the strings, the last is the jack that the signal leaves by. */
function columnOf(kinds: ReadonlySet<string>, block: Block): 'first' | 'last' | undefined {
  if (block.plate !== undefined || block.group !== undefined) return undefined;
  if (['pickup', 'humbucker', 'bridge'].some((kind) => kinds.has(kind))) return 'first';
  return kinds.has('jack') ? 'last' : undefined;
}

/** Steps from the nearest pickup along signal wires; what only ground reaches comes after what it is wired to. */
function ranks(
  blocks: readonly Block[],
  kinds: ReadonlyMap<string, ReadonlySet<string>>,
  runs: readonly DiagramRun[],
  blockOf: (lug: string) => string,
): Map<string, number> {
  const isJack = (id: string): boolean => kinds.get(id)!.has('jack') && kinds.get(id)!.size === 1;
  const rank = new Map<string, number>();
  const start = blocks.filter((block) => ['pickup', 'humbucker'].some((kind) => kinds.get(block.id)!.has(kind)));
  for (const block of start) rank.set(block.id, 0);
  for (const wave of [runs.filter((run) => !run.ground), runs]) {
    let front = [...rank.keys()];
    while (front.length > 0) {
      const next: string[] = [];
      for (const id of front) {
        // The jack is the end: what hangs on it does not come after it.
        if (isJack(id)) continue;
        for (const run of wave) {
          const [a, b] = [blockOf(run.from), blockOf(run.to)];
          const other = a === id ? b : b === id ? a : undefined;
          if (other === undefined || rank.has(other)) continue;
          rank.set(other, rank.get(id)! + 1);
          next.push(other);
        }
      }
      front = next;
    }
  }
  const last = Math.max(0, ...rank.values()) + 1;
  for (const block of blocks) {
    if (isJack(block.id)) rank.set(block.id, last);
    else if (kinds.get(block.id)!.has('bridge') && kinds.get(block.id)!.size === 1) rank.set(block.id, 0);
    else if (!rank.has(block.id)) rank.set(block.id, last - 1);
  }
  return rank;
}

/** The place on the block's edge where a wire from the lug comes out. */
function portOf(
  block: Block,
  lug: string,
  access: { readonly x: number; readonly y: number; readonly heading: number },
): LayoutPort {
  const side = (['north', 'east', 'south', 'west'] as const)[access.heading]!;
  const x = side === 'east' ? block.width : side === 'west' ? 0 : access.x;
  const y = side === 'south' ? block.height : side === 'north' ? 0 : access.y;
  return { id: lug, side, x, y };
}
