/** From a diagram to places: blocks laid out, parts turned towards what they are wired to, outlines around groups. */
import { channelBands, type ChannelBand } from '../channels.js';
import type { Diagram } from '../diagram/diagram.js';
import { type Box, grow, joinBoxes } from '../geometry.js';
import type { LayoutFunction } from '../layout.js';
import { createFrame } from '../router/field.js';
import { createSession, type Session } from '../router/session.js';
import type { SceneGroup } from '../scene.js';
import type { Block } from './block.js';
import { createBlocks } from './create-blocks.js';
import { createEstimate } from './estimate.js';
import { firstStand } from './first-stand.js';
import { keepStand } from './keep-stand.js';
import { itemsOf, type Memory } from './memory.js';
import { outlinesOf, sceneGroup } from './outline.js';
import { passagesOf } from './passage.js';
import { waysBox, type PlacedSymbol } from '../placed.js';
import { refine } from './refine.js';
import { roughen } from './rough.js';
import { createManners, createPlacer } from './stand.js';

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
const budget = 1_000_000;

/**
 * A diagram of the same signature as the memory's keeps its places and ways; one that differs a little keeps its places and the ways that
 * are still true; any other is laid out anew.
 */
export async function arrange(diagram: Diagram, layout: LayoutFunction, memory?: Memory): Promise<Arrangement> {
  const blocks = createBlocks(diagram);
  const passages = passagesOf(diagram);
  const signature = signatureOf(diagram, blocks);
  const estimate = createEstimate(diagram, blocks);
  const known = memory?.signature === signature ? memory : undefined;
  const kept = known || !memory ? undefined : keepStand(diagram, blocks, estimate, passages, memory);
  const { stand: first, fallback } = known ?? kept ?? (await firstStand(diagram, blocks, passages, layout));

  const outlines = outlinesOf(diagram, blocks, first.places, passages);
  const groups = diagram.groups.flatMap((group) => (outlines.has(group.id) ? [sceneGroup(group, outlines.get(group.id)!)] : []));
  const bands = channelBands(diagram, outlines, passages.loads);
  const around = {
    walls: diagram.groups.flatMap((group) =>
      outlines.has(group.id) ? [{ box: outlines.get(group.id)!, isWall: group.kind === 'cavity' }] : [],
    ),
    labels: groups.flatMap((group) => group.labels.map((label) => grow<Box>(label, 3))),
    openings: bands.flatMap((band) => band.openings),
    bound: passages.bound,
  };
  const placedAt = createPlacer();
  const atFirst = placedAt(blocks, first);
  const bounds = joinBoxes([waysBox(atFirst), ...outlines.values()]);
  const frame = known?.frame ?? kept?.frame ?? createFrame(bounds);
  const fixed = [...outlines.values()];
  const isFree = (block: Block): boolean => block.group === undefined;
  const task = {
    blocks,
    movable: blocks.filter((block) => isFree(block) && (!kept || kept.fresh.has(block.id))),
    turnable: blocks.filter((block) => !kept || kept.fresh.has(block.id)),
    placedAt,
    estimate,
    manners: createManners(blocks, fixed),
    fixed,
    room: frame.room,
    budget,
  };
  const start = known || kept ? first : roughen(task, first);
  const session = createSession(diagram, frame, placedAt(blocks, start), around, known?.ways ?? kept?.ways);
  const stand = known ? start : refine(task, session, start);
  // Where an edit leaves no room for its wires, nothing is worth keeping.
  if (kept && session.crowded().length > 0) return arrange(diagram, layout);
  const places = new Map([...(kept ? memory!.stand.places : []), ...stand.places]);
  return {
    placed: placedAt(blocks, stand),
    groups,
    bands,
    session,
    isKept: known !== undefined || kept !== undefined,
    memory: {
      signature,
      items: known?.items ?? kept?.items ?? itemsOf(diagram),
      blocks: new Map([...(kept ? memory!.blocks : []), ...blocks.map((block) => [block.id, block] as const)]),
      stand: { places, choice: new Map([...(kept ? memory!.stand.choice : []), ...stand.choice]) },
      frame,
      ways: session.ways(),
      ...(fallback === undefined ? {} : { fallback }),
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
      block.slots.map(({ ways }) => [
        ways.length,
        ways[0]!.map(({ part, x, y, symbol }) => [part.id, x, y, symbol.width, symbol.height]),
      ]),
    ]),
    diagram.parts.map((part) => [part.id, part.kind, part.rows, part.lugs.map((lug) => [lug.id, lug.ends])]),
    diagram.runs.map((run) => [run.id, run.kind, run.from, run.to, run.ground]),
    diagram.groups,
    diagram.channels,
  ]);
}
