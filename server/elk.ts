/** Packs a drawing's parts that have no usual place with ELK (rectangle packing, in reading order). The only file that knows it. */
import elk, { type ElkNode, type LayoutOptions } from 'elkjs/lib/elk.bundled.js';
import type { LayoutFunction } from '../language/drawing/index.js';

/** Distances in drawing units, room for wires among them. */
const options: LayoutOptions = {
  'elk.algorithm': 'rectpacking',
  'elk.aspectRatio': '1.6',
  'elk.spacing.nodeNode': '40',
  'elk.padding': '[top=0,left=0,bottom=0,right=0]',
  'elk.contentAlignment': 'V_TOP H_LEFT',
};

const engine = new elk.default();

/** Places by ELK, in this thread: it cannot be interrupted, so a host with threads runs it in one (`layout-thread.ts`). Rejects where ELK fails. */
export const elkLayout: LayoutFunction = async (graph) => {
  const root: ElkNode = {
    id: 'drawing',
    layoutOptions: options,
    children: graph.nodes.map(({ id, width, height }) => ({ id, width, height })),
  };
  const { children = [] } = await engine.layout(root);
  return new Map(children.map(({ id, x, y }) => [id, { x: x ?? NaN, y: y ?? NaN }]));
};
