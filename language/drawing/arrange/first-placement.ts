/** Where everything stands at first: level by level from the inmost groups outwards, each placed by the layout and brought into shape. */
import { valueFor } from '../../collections.js';
import type { Diagram } from '../diagram/diagram.js';
import { type Point, snap } from '../geometry.js';
import { DrawingStopped, type LayoutFunction, type LayoutGraph, type LayoutResult } from '../layout.js';
import { simpleLayout } from '../simple-layout.js';
import { movePad } from '../symbols/symbol.js';
import type { Block } from './block.js';
import { chooseOrientations } from './choose.js';
import { createGraph } from './graph.js';
import { paddingOf } from './outline.js';
import { pack } from './pack.js';
import type { Passages } from './passage.js';
import type { Placement } from './placement.js';
import { unitOfBlock, unitOfGroup, type Unit } from './unit.js';

export interface FirstPlacement {
  readonly placement: Placement;
  /** Why the plain layout was taken, where it was. */
  readonly fallback?: string;
}

export async function firstPlacement(
  diagram: Diagram,
  blocks: readonly Block[],
  passages: Passages,
  layout: LayoutFunction,
): Promise<FirstPlacement> {
  let fallback: string | undefined;
  const level = async (
    parent: string | undefined,
  ): Promise<{ readonly units: readonly Unit[]; readonly places: LayoutResult }> => {
    const units = blocks.filter((block) => block.group === parent).map(unitOfBlock);
    for (const group of diagram.groups.filter((other) => other.parent === parent)) {
      const inside = await level(group.id);
      units.push(unitOfGroup(group, inside.units, inside.places, paddingOf(group, passages), movePad));
    }
    units.sort((a, b) => (a.id < b.id ? -1 : 1));
    if (units.length < 2) return { units, places: new Map(units.map((unit) => [unit.id, { x: 0, y: 0 }])) };
    const asked = await placesOf(createGraph(diagram, units, parent !== undefined), layout);
    fallback ??= asked.fallback;
    const isPacked = parent !== undefined || units.some((unit) => unit.isGroup);
    return { units, places: isPacked ? pack(diagram, units, asked.places, passages) : asked.places };
  };
  const { units, places: outer } = await level(undefined);
  const places = new Map(
    units.flatMap((unit) => {
      const { x, y } = valueFor(outer, unit.id);
      return [...unit.places].map(([id, at]): [string, Point] => [id, { x: x + at.x, y: y + at.y }]);
    }),
  );
  return {
    placement: { places, choice: chooseOrientations(diagram, blocks, places) },
    ...(fallback === undefined ? {} : { fallback }),
  };
}

/** Parts, groups and wires of one level that a layout is asked for: so many take it up to ten seconds, and twice as many four times that. */
const mostLaidOut = 500;

/** Places from the layout, or from the plain one where there is too much to lay out or the layout fails. */
export async function placesOf(
  graph: LayoutGraph,
  layout: LayoutFunction,
): Promise<{ readonly places: LayoutResult; readonly fallback?: string }> {
  const size = graph.nodes.length + graph.edges.length + graph.links.length;
  if (size > mostLaidOut)
    return {
      places: snapped(simpleLayout(graph)),
      fallback: `it has ${size} parts and wires to place; the limit is ${mostLaidOut}`,
    };
  try {
    return { places: snapped(complete(await layout(graph), graph)) };
  } catch (error) {
    if (error instanceof DrawingStopped) throw error;
    return { places: snapped(simpleLayout(graph)), fallback: error instanceof Error ? error.message : String(error) };
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

function snapped(places: LayoutResult): LayoutResult {
  return new Map([...places].map(([id, place]) => [id, { x: snap(place.x), y: snap(place.y) }]));
}
