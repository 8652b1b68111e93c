/** Blocks: what the layout moves as one. A part, a part with the small ones that hang on it, or a plate with all that lies on it. */
import type { Diagram } from '../diagram.js';
import { createClusters, type Cluster } from './cluster.js';
import { waysBox, type PlacedSymbol } from './placed.js';
import { arrangePlate } from './plate.js';

/** Something that may lie in several ways, each in the block's own frame. */
export interface Slot {
  readonly id: string;
  readonly ways: readonly (readonly PlacedSymbol[])[];
}

export interface Block {
  /** Id of the part, or of the plate. */
  readonly id: string;
  readonly group?: string;
  readonly width: number;
  readonly height: number;
  readonly slots: readonly Slot[];
  /** The group whose places the slots keep: the block is that group's inside. */
  readonly plate?: string;
}

/** All parts of the diagram, each in exactly one block, in a stable order. */
export function createBlocks(diagram: Diagram): Block[] {
  const plates = new Set(
    diagram.parts.filter((part) => part.at !== undefined && part.group !== undefined).map((part) => part.group!),
  );
  const free = diagram.parts.filter((part) => part.group === undefined || !plates.has(part.group));
  const blocks = createClusters(diagram, free).map(blockOf);
  for (const plate of [...plates].sort()) {
    const inside = diagram.parts.filter((part) => part.group === plate);
    blocks.push(arrangePlate(diagram, plate, inside));
  }
  return blocks.sort((a, b) => (a.id < b.id ? -1 : 1));
}

function blockOf(cluster: Cluster): Block {
  const boxes = cluster.ways.map(waysBox);
  const width = Math.max(...boxes.map((box) => box.width));
  const height = Math.max(...boxes.map((box) => box.height));
  const ways = cluster.ways.map((way, index) =>
    way.map((placed) => ({ ...placed, x: placed.x - boxes[index]!.x, y: placed.y - boxes[index]!.y })),
  );
  return {
    id: cluster.id,
    width,
    height,
    slots: [{ id: cluster.id, ways }],
    ...(cluster.group === undefined ? {} : { group: cluster.group }),
  };
}
