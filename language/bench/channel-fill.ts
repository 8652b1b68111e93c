/** What has to pass each drilled channel, and whether it goes through. */
import type { Channel, Circuit, PartId } from '../circuit/model.js';
import { buildSettings } from './build-settings.js';
import { leadEnd } from './places.js';
import { runsOf, type Run } from './runs.js';
import { runDiameter } from './wire-sizes.js';

/** One wire or cable in a channel. */
export interface Passing {
  readonly runs: readonly Run[];
  /** Outside, metres. */
  readonly diameter: number;
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
  readonly isFull: boolean;
}

/** Every channel in the order of the text. Wires whose way is not known are in none. */
export function channelFills(circuit: Circuit): readonly ChannelFill[] {
  const settings = buildSettings(circuit);
  return circuit.channels.map((channel) => {
    const passing = passingOf(circuit, channel);
    const diameters = passing.map(({ diameter }) => diameter).sort((a, b) => b - a);
    const widest = (diameters[0] ?? 0) + (diameters[1] ?? 0);
    const area = diameters.reduce((sum, diameter) => sum + diameter ** 2, 0);
    const share = channel.bore === undefined || channel.bore <= 0 ? 0 : area / channel.bore ** 2;
    // One wire alone is judged by whether it passes, several by the share that they take.
    const isOver = passing.length > 1 && share > settings.fill;
    const isFull = channel.bore !== undefined && (widest > channel.bore || isOver);
    return { channel, passing, share, limit: settings.fill, widest, isFull };
  });
}

/** Runs through a channel; three own leads or more of one part are one cable. */
function passingOf(circuit: Circuit, channel: Channel): Passing[] {
  const settings = buildSettings(circuit);
  const runs = runsOf(circuit).filter((run) => run.way.channels.includes(channel));
  const cables = new Map<PartId, Run[]>();
  const single: Passing[] = [];
  for (const run of runs) {
    const end = run.ownLead ? leadEnd(circuit, run.joint) : undefined;
    const part = end === undefined ? undefined : circuit.lugs[end]!.part;
    if (part !== undefined && (circuit.parts[part]!.leads ?? []).length > 2) {
      cables.set(part, [...(cables.get(part) ?? []), run]);
    } else {
      single.push({ runs: [run], diameter: runDiameter({ ...run.joint, ownLead: run.ownLead }, settings) });
    }
  }
  return [...single, ...[...cables.values()].map((together) => ({ runs: together, diameter: settings.cable }))];
}
