/** From a diagram to places: blocks laid out, parts turned towards what they are wired to, outlines around groups. */
import { channelBands, type ChannelBand } from '../channels.js';
import type { Diagram, DiagramGroup } from '../diagram.js';
import { type Box, grid, grow, joinBoxes, snap } from '../geometry.js';
import type { LayoutFunction, LayoutGraph, LayoutResult } from '../layout.js';
import { createFrame, type Frame } from '../router/field.js';
import { createSession, type Session } from '../router/session.js';
import type { Way } from '../router/search.js';
import type { SceneGroup } from '../scene.js';
import type { Label } from '../shape.js';
import { simpleLayout } from '../simple-layout.js';
import { fitText, textHeight, textWidth } from '../text-measure.js';
import { alignCavities } from './align.js';
import { createBlocks, type Block } from './block.js';
import { chooseWays } from './choose.js';
import { createGraph, groupPadding, groupStyle } from './graph.js';
import { channelLoads } from './passage.js';
import { waysBox, type PlacedSymbol } from './placed.js';
import { createPlacer, refine, type Stand } from './refine.js';

export interface Arrangement {
  readonly placed: readonly PlacedSymbol[];
  readonly groups: readonly SceneGroup[];
  readonly bands: readonly ChannelBand[];
  /** The wires as they were laid when the parts had come to rest. */
  readonly session: Session;
  readonly memory: Memory;
}

/** What an arrangement of a diagram with the same signature starts from, so that nothing moves. */
export interface Memory {
  readonly signature: string;
  readonly stand: Stand;
  /** The ways are by the points of this grid. */
  readonly frame: Frame;
  readonly ways: ReadonlyMap<string, Way>;
  /** Why the plain layout was taken, where it was. */
  readonly fallback?: string;
}

/** Grid points that may be looked at for a drawing: enough for a large instrument to settle within the time that one waits for a picture. */
const budget = 1_500_000;

/** Lays out anew where `memory` is of another diagram; a diagram of the same signature keeps its places and ways. */
export async function arrange(diagram: Diagram, layout: LayoutFunction, memory?: Memory): Promise<Arrangement> {
  const blocks = createBlocks(diagram);
  const signature = signatureOf(diagram, blocks);
  const known = memory?.signature === signature ? memory : undefined;
  const { stand: first, fallback } = known ?? (await firstStand(diagram, blocks, layout));

  const outlines = outlinesOf(diagram, blocks, first.places);
  const groups = diagram.groups.flatMap((group) => (outlines.has(group.id) ? [sceneGroup(group, outlines.get(group.id)!)] : []));
  const bands = channelBands(diagram, outlines, channelLoads(diagram));
  const around = {
    walls: diagram.groups.flatMap((group) =>
      outlines.has(group.id) ? [{ box: outlines.get(group.id)!, isWall: group.kind === 'cavity' }] : [],
    ),
    labels: groups.flatMap((group) => group.labels.map((label) => grow<Box>(label, 3))),
    openings: bands.map((band) => band.opening),
  };
  const placedAt = createPlacer();
  const atFirst = placedAt(blocks, first);
  const frame = known?.frame ?? createFrame(joinBoxes([waysBox(atFirst), ...outlines.values()]));
  const session = createSession(diagram, frame, atFirst, around, known?.ways);
  const stand = known ? first : refine(diagram, placedAt, blocks, session, first, [...outlines.values()], budget);
  return {
    placed: placedAt(blocks, stand),
    groups,
    bands,
    session,
    memory: { signature, stand, frame, ways: session.ways(), ...(fallback === undefined ? {} : { fallback }) },
  };
}

async function firstStand(
  diagram: Diagram,
  blocks: readonly Block[],
  layout: LayoutFunction,
): Promise<{ readonly stand: Stand; readonly fallback?: string }> {
  const graph = createGraph(diagram, blocks, new Map());
  const { places: raw, fallback } = await placesOf(graph, layout);
  const places = alignCavities(diagram, blocks, raw, graph.links, (at) => outlinesOf(diagram, blocks, at));
  return { stand: { places, choice: chooseWays(diagram, blocks, places) }, ...(fallback === undefined ? {} : { fallback }) };
}

/** What the places hang on: what is joined to what and how much room each thing needs; no value, no colour, no title. */
function signatureOf(diagram: Diagram, blocks: readonly Block[]): string {
  return JSON.stringify([
    blocks.map((block) => [
      block.id,
      block.group,
      block.width,
      block.height,
      block.slots.map((slot) =>
        slot.ways.map((way) => way.map(({ part, x, y, symbol }) => [part.id, x, y, symbol.width, symbol.height])),
      ),
    ]),
    diagram.parts.map((part) => [part.id, part.kind, part.rows, part.lugs.map((lug) => [lug.id, lug.ends])]),
    diagram.runs.map((run) => [run.id, run.kind, run.from, run.to, run.ground]),
    diagram.groups,
    diagram.channels,
  ]);
}

/** Places from the layout, or from the plain one where it fails. */
async function placesOf(
  graph: LayoutGraph,
  layout: LayoutFunction,
): Promise<{ readonly places: LayoutResult; readonly fallback?: string }> {
  try {
    return { places: snapped(complete(await layout(graph), graph)) };
  } catch (error) {
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
    const name = Math.min(300, textWidth([group.name, ...group.notes].join(', '), groupStyle)) + 2 * grid;
    const { top, side } = groupPadding;
    const half = grid / 2;
    const result = {
      x: box.x - side + half,
      y: box.y - top + half,
      width: Math.max(box.width, name) + 2 * side - grid,
      height: box.height + top + side - grid,
    };
    outlines.set(id, result);
    return result;
  };
  for (const group of diagram.groups) outline(group.id);
  return outlines;
}

function sceneGroup(group: DiagramGroup, box: Box): SceneGroup {
  const role = group.kind === 'plate' && group.notes.includes('metal') ? 'plate-metal' : group.kind;
  const text = fitText([group.name, ...group.notes].join(', '), groupStyle, box.width - 16);
  const label: Label = {
    text,
    size: groupStyle.size,
    bold: true,
    role: 'group',
    upright: false,
    x: box.x + 10,
    y: box.y + 8,
    width: textWidth(text, groupStyle),
    height: textHeight(text, groupStyle),
  };
  return {
    id: group.id,
    says: `${group.kind} ${[group.name, ...group.notes].join(', ')}`,
    shapes: [{ kind: 'box', role, radius: 14, ...box }],
    labels: [label],
  };
}
