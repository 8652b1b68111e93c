/** From a diagram to places: blocks laid out, parts turned towards what they are wired to, outlines around groups. */
import type { Diagram } from '../diagram.js';
import { type Box, grid, grow, joinBoxes, snap } from '../geometry.js';
import type { LayoutFunction, LayoutGraph, LayoutResult } from '../layout.js';
import { simpleLayout } from '../simple-layout.js';
import { textWidth } from '../text-measure.js';
import { createBlocks, type Block } from './block.js';
import { chooseWays } from './choose.js';
import { createGraph, groupPadding, groupStyle, placedIn } from './graph.js';
import type { PlacedSymbol } from './placed.js';

export interface Arrangement {
  readonly placed: readonly PlacedSymbol[];
  /** Outline of each group by id. */
  readonly outlines: ReadonlyMap<string, Box>;
  /** Why the plain layout was taken, where it was. */
  readonly fallback?: string;
}

export async function arrange(diagram: Diagram, layout: LayoutFunction): Promise<Arrangement> {
  const blocks = createBlocks(diagram);
  let choice: ReadonlyMap<string, number> = new Map();
  let fallback: string | undefined;
  let places: LayoutResult = new Map();
  // Which way a part should lie shows once it has a place, and the places depend on the way it lies: two rounds settle it.
  for (let round = 0; round < 2; round++) {
    const graph = createGraph(diagram, blocks, choice);
    try {
      if (fallback === undefined) places = snapped(complete(await layout(graph), graph));
    } catch (error) {
      fallback = error instanceof Error ? error.message : String(error);
    }
    if (fallback !== undefined) places = snapped(simpleLayout(graph));
    choice = chooseWays(diagram, blocks, places);
  }
  const placed = blocks.flatMap((block) => {
    const origin = places.get(block.id)!;
    return placedIn(block, choice).map((symbol) => ({ ...symbol, x: symbol.x + origin.x, y: symbol.y + origin.y }));
  });
  return { placed, outlines: outlinesOf(diagram, blocks, places), ...(fallback === undefined ? {} : { fallback }) };
}

function complete(places: LayoutResult, graph: LayoutGraph): LayoutResult {
  for (const node of graph.nodes) {
    const place = places.get(node.id);
    if (place === undefined || !Number.isFinite(place.x) || !Number.isFinite(place.y))
      throw new Error(`the layout has no place for ${node.id}`);
  }
  return places;
}

function snapped(places: LayoutResult): LayoutResult {
  return new Map([...places].map(([id, place]) => [id, { x: snap(place.x), y: snap(place.y) }]));
}

/** Around what each group holds, inner groups first; half a step off the grid, so that no wire runs on an outline. */
function outlinesOf(diagram: Diagram, blocks: readonly Block[], places: LayoutResult): Map<string, Box> {
  const outlines = new Map<string, Box>();
  const outline = (id: string): Box | undefined => {
    const known = outlines.get(id);
    if (known) return known;
    const inside = [
      ...blocks
        .filter((block) => block.group === id)
        .map((block) => ({ ...places.get(block.id)!, width: block.width, height: block.height })),
      ...diagram.groups.filter((group) => group.parent === id).flatMap((group) => outline(group.id) ?? []),
    ];
    if (inside.length === 0) {
      const place = places.get(id);
      if (place === undefined) return undefined;
      inside.push({ ...place, width: 4 * grid, height: 2 * grid });
    }
    const group = diagram.groups.find((other) => other.id === id)!;
    const box = joinBoxes(inside);
    const name = textWidth([group.name, ...group.notes].join(', '), groupStyle) + 2 * grid;
    const around = grow({ ...box, width: Math.max(box.width, name) }, groupPadding.side - grid / 2);
    const result = {
      ...around,
      y: around.y - (groupPadding.top - groupPadding.side),
      height: around.height + (groupPadding.top - groupPadding.side),
    };
    outlines.set(id, result);
    return result;
  };
  for (const group of diagram.groups) outline(group.id);
  return outlines;
}
