/** From a diagram to places: blocks laid out, parts turned towards what they are wired to, outlines around groups. */
import { channelBands, type ChannelBand } from '../channels.js';
import { firstOf } from '../../collections.js';
import type { Diagram } from '../diagram/diagram.js';
import { type Box, grow, joinBoxes } from '../geometry.js';
import type { LayoutFunction } from '../layout.js';
import { createFrame, type Surroundings } from '../router/field.js';
import { createSession, type Session } from '../router/session.js';
import type { SceneGroup } from '../scene.js';
import type { Block } from './block.js';
import { createBlocks } from './create-blocks.js';
import { createEstimate } from './estimate.js';
import { firstPlacement } from './first-placement.js';
import { keepPlacement } from './keep-placement.js';
import { itemsOf, type Memory } from './memory.js';
import { outlinesOf, sceneGroup } from './outline.js';
import { passagesOf, type Passages } from './passage.js';
import { boundsOf, type PlacedSymbol } from '../placed.js';
import { refine } from './refine.js';
import { improveByEstimate } from './improve-by-estimate.js';
import { createLayoutCost, createPlacer, type Placement } from './placement.js';

export interface Arrangement {
  readonly placed: readonly PlacedSymbol[];
  readonly groups: readonly SceneGroup[];
  readonly bands: readonly ChannelBand[];
  /** The wires as they were laid when the parts had come to rest. */
  readonly session: Session;
  readonly memory: Memory;
  /** Whether it goes on from the memory it was given: what stood still stands where it stood. */
  readonly isKept: boolean;
}

/** Grid points that may be looked at for a drawing: enough for a large instrument to settle within the time that one waits for a picture. */
const budget = 60_000;

/**
 * A diagram of the same signature as the memory's keeps its places and routes; one that differs a little keeps its places and the routes that
 * are still true; any other is laid out anew.
 */
export async function arrange(diagram: Diagram, layout: LayoutFunction, memory?: Memory): Promise<Arrangement> {
  const blocks = createBlocks(diagram);
  const passages = passagesOf(diagram);
  const signature = signatureOf(diagram, blocks);
  const estimate = createEstimate(diagram, blocks);
  const known = memory?.signature === signature ? memory : undefined;
  const kept = known || !memory ? undefined : keepPlacement(diagram, blocks, estimate, passages, memory);
  const before = known ?? kept;
  const { placement: first, fallback } = before ?? (await firstPlacement(diagram, blocks, passages, layout));

  const outlines = outlinesOf(diagram, blocks, first.places, passages);
  const { groups, bands, around } = surroundings(diagram, outlines, passages);
  const placedAt = createPlacer();
  const fixed = [...outlines.values()];
  const frame = before?.frame ?? createFrame(joinBoxes([boundsOf(placedAt(blocks, first)), ...fixed]));
  const isFresh = (block: Block): boolean => !kept || kept.fresh.has(block.id);
  const task = {
    blocks,
    movable: blocks.filter((block) => block.group === undefined && isFresh(block)),
    turnable: blocks.filter(isFresh),
    placedAt,
    estimate,
    layoutCost: createLayoutCost(blocks, fixed),
    fixed,
    room: frame.room,
    budget,
  };
  const start = before ? first : improveByEstimate(task, first);
  const session = createSession(diagram, frame, placedAt(blocks, start), around, before?.routes);
  const placement = known ? start : refine(task, session, start);
  // Where an edit leaves no room for its wires, nothing is worth keeping.
  if (kept && session.crowded().length > 0) return arrange(diagram, layout);
  return {
    placed: placedAt(blocks, placement),
    groups,
    bands,
    session,
    isKept: before !== undefined,
    memory: {
      ...recalled(blocks, placement, kept ? memory : undefined),
      signature,
      items: before?.items ?? itemsOf(diagram),
      frame,
      routes: session.routes(),
      ...(fallback === undefined ? {} : { fallback }),
    },
  };
}

/** What lies round the parts: outlines with their labels, and the channels between them. */
function surroundings(
  diagram: Diagram,
  outlines: ReadonlyMap<string, Box>,
  passages: Passages,
): { readonly groups: readonly SceneGroup[]; readonly bands: readonly ChannelBand[]; readonly around: Surroundings } {
  const outlined = diagram.groups.flatMap((group) => {
    const box = outlines.get(group.id);
    return box === undefined ? [] : [{ group, box }];
  });
  const groups = outlined.map(({ group, box }) => sceneGroup(group, box));
  const bands = channelBands(diagram, outlines, passages.loads);
  const around = {
    walls: outlined.map(({ group, box }) => ({ box, isWall: group.kind === 'cavity' })),
    labels: groups.flatMap((group) => group.labels.map((label) => grow<Box>(label, 3))),
    openings: bands.flatMap((band) => band.openings),
    bound: passages.bound,
  };
  return { groups, bands, around };
}

/** Blocks and places of now, and of before where the drawing goes on from it. */
function recalled(
  blocks: readonly Block[],
  placement: Placement,
  before: Memory | undefined,
): Pick<Memory, 'blocks' | 'placement'> {
  return {
    blocks: new Map([...(before?.blocks ?? []), ...blocks.map((block) => [block.id, block] as const)]),
    placement: {
      places: new Map([...(before?.placement.places ?? []), ...placement.places]),
      choice: new Map([...(before?.placement.choice ?? []), ...placement.choice]),
    },
  };
}

/** What the places hang on: what is joined to what and how much room each thing needs; no value, no colour, no title. */
function signatureOf(diagram: Diagram, blocks: readonly Block[]): string {
  return JSON.stringify([
    blocks.map((block) => [
      block.id,
      block.group,
      block.width,
      block.height,
      block.slots.map(({ orientations }) => [
        orientations.length,
        firstOf(orientations).map(({ part, x, y, symbol }) => [part.id, x, y, symbol.width, symbol.height]),
      ]),
    ]),
    diagram.parts.map((part) => [part.id, part.kind, part.rows, part.lugs.map((lug) => [lug.id, lug.ends])]),
    diagram.runs.map((run) => [run.id, run.kind, run.from, run.to, run.ground]),
    diagram.groups,
    diagram.channels,
  ]);
}
