/** Makes a diagram's blocks: its plates, and every other part with the small ones that hang on it. */
import type { Diagram } from '../diagram/diagram.js';
import type { Block } from './block.js';
import { createClusters, type Cluster } from './cluster.js';
import { boundsOf } from '../placed.js';
import { arrangePlate } from './plate.js';

/** All parts of the diagram, each in exactly one block, in a stable order. */
export function createBlocks(diagram: Diagram): Block[] {
  const plates = new Set(diagram.parts.flatMap(({ at, group }) => (at === undefined || group === undefined ? [] : [group])));
  const free = diagram.parts.filter((part) => part.group === undefined || !plates.has(part.group));
  const blocks = createClusters(diagram, free).map(blockOf);
  for (const plate of [...plates].sort()) {
    const inside = diagram.parts.filter((part) => part.group === plate);
    blocks.push(arrangePlate(diagram, plate, inside));
  }
  return blocks.sort((a, b) => (a.id < b.id ? -1 : 1));
}

function blockOf(cluster: Cluster): Block {
  const boxed = cluster.orientations.map((orientation) => ({ orientation, box: boundsOf(orientation) }));
  const orientations = boxed.map(({ orientation, box }) =>
    orientation.map((placed) => ({ ...placed, x: placed.x - box.x, y: placed.y - box.y })),
  );
  return {
    id: cluster.id,
    width: Math.max(...boxed.map(({ box }) => box.width)),
    height: Math.max(...boxed.map(({ box }) => box.height)),
    slots: [{ id: cluster.id, orientations }],
    ...(cluster.group === undefined ? {} : { group: cluster.group }),
  };
}
