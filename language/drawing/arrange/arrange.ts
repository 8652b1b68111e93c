/** From a diagram to places and routes: everything stands where its family of arrangement has it, whatever is joined to what; then the wires are laid. */
import { channelBands, type ChannelBand } from '../channels.js';
import type { Diagram } from '../diagram/diagram.js';
import { type Box, grow, joinBoxes } from '../geometry.js';
import type { LayoutFunction } from '../layout.js';
import type { PlacedSymbol } from '../placed.js';
import { boundsOf } from '../placed.js';
import { createFrame, rebased, type Frame, type Surroundings } from '../router/field.js';
import type { Route } from '../router/grid-field.js';
import { createSession, type Session } from '../router/session.js';
import type { SceneGroup } from '../scene.js';
import { placeAll } from './groups.js';
import { sceneGroup } from './outline.js';
import { passagesOf, type Passages } from './passage.js';

export interface Arrangement {
  readonly placed: readonly PlacedSymbol[];
  readonly groups: readonly SceneGroup[];
  readonly bands: readonly ChannelBand[];
  /** The wires as they were laid. */
  readonly session: Session;
  readonly memory: Memory;
}

/** What one drawing leaves for the next: where wires lay, so that one that is still true stays there. */
export interface Memory {
  readonly frame: Frame;
  readonly routes: ReadonlyMap<string, Route>;
  /** Why the plain layout was taken, where it was. */
  readonly fallback?: string;
}

/** Places come from the diagram's parts and groups alone; `memory` only keeps routes that are still true. */
export async function arrange(diagram: Diagram, layout: LayoutFunction, memory?: Memory): Promise<Arrangement> {
  let fallback: string | undefined;
  const { symbols, outlines } = await placeAll(diagram, layout, (reason) => (fallback ??= reason));
  const passages = passagesOf(diagram);
  const { groups, bands, around } = surroundings(diagram, outlines, passages);
  const frame = createFrame(joinBoxes([boundsOf(symbols), ...outlines.values()]));
  const known = memory === undefined ? undefined : rebased(memory.routes, memory.frame, frame);
  const session = createSession(diagram, frame, symbols, around, known);
  return {
    placed: symbols,
    groups,
    bands,
    session,
    memory: { frame, routes: session.routes(), ...(fallback === undefined ? {} : { fallback }) },
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
