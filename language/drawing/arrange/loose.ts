/** Parts for which no family has a place: a grid in order of their names, as the layout packs it. */
import { valueFor } from '../../collections.js';
import { snap } from '../geometry.js';
import { DrawingStopped, type LayoutFunction, type LayoutGraph, type LayoutResult } from '../layout.js';
import { simpleLayout } from '../simple-layout.js';
import { joinPieces, movePiece, type Piece } from './piece.js';
import { byPlace } from './stations.js';

/** Up to so many form a row, which needs no layout. */
const mostInRow = 4;
/** Parts that a layout is asked for: so many take it up to ten seconds. */
const mostLaidOut = 500;

/** `report` is called with the reason where the plain layout is used. */
export async function setOutLoose(
  pieces: readonly Piece[],
  layout: LayoutFunction,
  report: (reason: string) => void,
): Promise<Piece> {
  const sorted = [...pieces].sort((a, b) => byPlace(a.name, b.name));
  const graph = {
    nodes: sorted.map(({ box }, index) => ({ id: String(index), width: box.width, height: box.height })),
  };
  const places = sorted.length <= mostInRow ? simpleLayout(graph) : await placesOf(graph, layout, report);
  return joinPieces(
    '',
    sorted.map((piece, index) => {
      const { x, y } = valueFor(places, String(index));
      return movePiece(piece, { x: snap(x - piece.box.x), y: snap(y - piece.box.y) });
    }),
  );
}

/** Places from the layout, or from the plain one where there is too much to lay out or the layout fails. */
export async function placesOf(
  graph: LayoutGraph,
  layout: LayoutFunction,
  report: (reason: string) => void,
): Promise<LayoutResult> {
  if (graph.nodes.length > mostLaidOut) {
    report(`it has ${graph.nodes.length} parts without a usual place; the limit is ${mostLaidOut}`);
    return simpleLayout(graph);
  }
  try {
    return complete(await layout(graph), graph);
  } catch (error) {
    if (error instanceof DrawingStopped) throw error;
    report(error instanceof Error ? error.message : String(error));
    return simpleLayout(graph);
  }
}

function complete(places: LayoutResult, graph: LayoutGraph): LayoutResult {
  for (const node of graph.nodes) {
    const place = places.get(node.id);
    if (place === undefined || !Number.isFinite(place.x) || !Number.isFinite(place.y))
      throw new Error(`the layout has no place for ${node.id}`);
  }
  return places;
}
