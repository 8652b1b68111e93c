/** What has to pass each drilled channel, and whether it goes through. */
import { leadEnd, type Channel, type Part } from '../../circuit/model.js';
import type { Build } from '../build.js';
import type { Run } from './runs.js';
import { runDiameter } from './wire-sizes.js';

/** One wire or cable in a channel. */
export interface Passing {
  readonly runs: readonly Run[];
  /** Outside, metres. */
  readonly diameter: number;
  /** Thickness of the plug that is pulled through with it. */
  readonly plug?: number;
}

export interface ChannelFill {
  readonly channel: Channel;
  readonly passing: readonly Passing[];
  /** Sum of the wires' cross-sections over the bore's, 0 where the bore is not known. */
  readonly share: number;
  /** The shop's limit. */
  readonly limit: number;
  /** The two thickest side by side, metres: more than the bore cannot pass whatever the share. */
  readonly widest: number;
  /** What has to be free for the plugs: the thickest first, each later one beside the cables that lie there by then; 0 without plugs. */
  readonly plugs: number;
  readonly isFull: boolean;
}

/** Every channel in the order of the text. Wires whose way is not known are in none. */
export function channelFills(build: Build): readonly ChannelFill[] {
  const { settings } = build;
  const runs = new Map<Channel, Run[]>(build.channels.map((channel) => [channel, []]));
  for (const run of build.runs) for (const channel of new Set(run.route.channels)) runs.get(channel)?.push(run);
  return build.channels.map((channel) => {
    const passing = passingOf(build, runs.get(channel) ?? []);
    const diameters = passing.map(({ diameter }) => diameter).sort((a, b) => b - a);
    const widest = (diameters[0] ?? 0) + (diameters[1] ?? 0);
    const area = diameters.reduce((sum, diameter) => sum + diameter ** 2, 0);
    const share = channel.bore === undefined || channel.bore <= 0 ? 0 : area / channel.bore ** 2;
    // One wire alone is judged by whether it passes, several by the share that they take.
    const isOver = passing.length > 1 && share > settings.fill;
    const plugs = roomForPlugs(passing);
    const isFull = channel.bore !== undefined && (widest > channel.bore || plugs > channel.bore || isOver);
    return { channel, passing, share, limit: settings.fill, widest, plugs, isFull };
  });
}

/** Thickness of the plug on a part's cable, where the text gives one. */
export function plugOf({ properties: { plug } }: Part): number | undefined {
  return plug !== undefined && 'value' in plug && plug.known ? plug.value : undefined;
}

function roomForPlugs(passing: readonly Passing[]): number {
  const plugged = passing
    .flatMap(({ plug, diameter }) => (plug === undefined ? [] : [{ plug, diameter }]))
    .sort((a, b) => b.plug - a.plug);
  let [room, beside] = [0, 0];
  for (const { plug, diameter } of plugged) {
    room = Math.max(room, plug + beside);
    beside = Math.max(beside, diameter);
  }
  return room;
}

/** What passes a channel, of the runs through it; the leads of one part are one cable where they are three or more or end in a plug. */
function passingOf(build: Build, runs: readonly Run[]): Passing[] {
  const { settings } = build;
  const cables = new Map<Part, Run[]>();
  const single: Passing[] = [];
  for (const run of runs) {
    const end = run.ownLead ? leadEnd(build, run.joint) : undefined;
    const part = end === undefined ? undefined : build.partAt(end);
    const isCable = part !== undefined && ((part.leads ?? []).length > 2 || plugOf(part) !== undefined);
    if (isCable) {
      cables.set(part, [...(cables.get(part) ?? []), run]);
    } else {
      single.push({ runs: [run], diameter: runDiameter({ ...run.joint, ownLead: run.ownLead }, settings) });
    }
  }
  const together = [...cables].map(([part, of]): Passing => {
    const plug = plugOf(part);
    return { runs: of, diameter: settings.cable, ...(plug === undefined ? {} : { plug }) };
  });
  return [...single, ...together];
}
