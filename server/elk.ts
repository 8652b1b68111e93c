/** Lays out a drawing with ELK (layered, fixed ports, orthogonal edges). The only file that knows it. */
import elk, { type ElkExtendedEdge, type ElkNode, type ElkPort, type LayoutOptions } from 'elkjs/lib/elk.bundled.js';
import type { LayoutFunction, LayoutGraph, LayoutNode } from '../language/drawing/index.js';

/** Distances in drawing units; wires lie 12 apart. */
const options: LayoutOptions = {
  'elk.algorithm': 'layered',
  'elk.direction': 'RIGHT',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.randomSeed': '1',
  'elk.separateConnectedComponents': 'false',
  'elk.spacing.nodeNode': '48',
  'elk.spacing.edgeNode': '18',
  'elk.spacing.edgeEdge': '12',
  'elk.layered.spacing.nodeNodeBetweenLayers': '60',
  'elk.layered.spacing.edgeNodeBetweenLayers': '18',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '12',
  'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
  'elk.layered.crossingMinimization.strategy': 'LAYER_SWEEP',
  'elk.layered.cycleBreaking.strategy': 'GREEDY',
  'elk.layered.thoroughness': '7',
};

/** The best places take a time that grows with the third power of a graph; from here on the second best are taken. */
const large = 40;

const engine = new elk.default();

/** Places by ELK, in this thread: it cannot be interrupted, so a host with threads runs it in one (`layout-thread.ts`). Rejects where ELK fails. */
export const elkLayout: LayoutFunction = async (graph) => {
  const root: ElkNode = {
    id: 'drawing',
    layoutOptions: graph.nodes.length > large ? { ...options, 'elk.layered.nodePlacement.strategy': 'BRANDES_KOEPF' } : options,
    children: graph.nodes.map(elkNode),
    edges: [...graph.edges.map(elkEdge), ...graph.links.map(elkLink)],
  };
  const { children = [] } = await engine.layout(root);
  return new Map(children.map((child) => [child.id, { x: child.x ?? 0, y: child.y ?? 0 }]));
};

function elkEdge(edge: LayoutGraph['edges'][number]): ElkExtendedEdge {
  return {
    id: edge.id,
    sources: [portId(edge.from.node, edge.from.port)],
    targets: [portId(edge.to.node, edge.to.port)],
    layoutOptions: {
      'elk.layered.priority.straightness': String(edge.weight),
      'elk.layered.priority.shortness': String(edge.weight),
      'elk.layered.priority.direction': String(edge.weight),
    },
  };
}

function elkLink({ id, from, to }: LayoutGraph['links'][number]): ElkExtendedEdge {
  return {
    id,
    sources: [from],
    targets: [to],
    layoutOptions: { 'elk.layered.priority.direction': '20', 'elk.layered.priority.shortness': '20' },
  };
}

function elkNode(node: LayoutNode): ElkNode {
  const constraint: LayoutOptions =
    node.column === undefined ? {} : { 'elk.layered.layering.layerConstraint': node.column.toUpperCase() };
  return {
    id: node.id,
    width: node.width,
    height: node.height,
    layoutOptions: { 'elk.portConstraints': 'FIXED_POS', ...constraint },
    ports: node.ports.map((port): ElkPort => ({
      id: portId(node.id, port.id),
      x: port.x,
      y: port.y,
      width: 0,
      height: 0,
      layoutOptions: { 'elk.port.side': port.side.toUpperCase() },
    })),
  };
}

function portId(node: string, port: string): string {
  return `${node} ${port}`;
}
