/** Which wires go through which channels and cavities: the bore must hold them, and the drawing must have room for them. */
import { topGroup } from '../channels.js';
import type { Diagram, DiagramRun } from '../diagram/diagram.js';

export interface Passages {
  /** Number of wires in each channel, by its id: every wire takes the fewest channels between the cavities of its two lugs. */
  readonly loads: ReadonlyMap<string, number>;
  /** Wires that lie in cavities and channels from one end to the other, by their ids, with the channels on their route: none of their length may be drawn in the wood. */
  readonly bound: ReadonlyMap<string, readonly string[]>;
}

export function passagesOf(diagram: Diagram): Passages {
  const loads = new Map<string, number>();
  const bound = new Map<string, readonly string[]>();
  const cavityOf = new Map(
    diagram.parts.flatMap((part) => part.lugs.map((lug) => [lug.id, topGroup(diagram, part.group)] as const)),
  );
  for (const run of diagram.runs) {
    const path = pathOf(diagram, run, cavityOf);
    if (!path) continue;
    bound.set(run.id, path.channels);
    for (const channel of path.channels) loads.set(channel, (loads.get(channel) ?? 0) + 1);
  }
  return { loads, bound };
}

interface PassagePath {
  /** From the one lug's cavity to the other's. */
  readonly cavities: readonly string[];
  readonly channels: readonly string[];
}

function pathOf(diagram: Diagram, run: DiagramRun, cavityOf: ReadonlyMap<string, string | undefined>): PassagePath | undefined {
  const [from, to] = [cavityOf.get(run.from), cavityOf.get(run.to)];
  if (from === undefined || to === undefined) return undefined;
  if (from === to) return from.startsWith('cavity:') ? { cavities: [from], channels: [] } : undefined;
  const before = new Map<string, { readonly cavity: string; readonly channel: string } | undefined>([[from, undefined]]);
  let front = [from];
  while (front.length > 0 && !before.has(to)) {
    const next: string[] = [];
    for (const cavity of front) {
      for (const channel of diagram.channels) {
        const other = channel.from === cavity ? channel.to : channel.to === cavity ? channel.from : undefined;
        if (other === undefined || before.has(other)) continue;
        before.set(other, { cavity, channel: channel.id });
        next.push(other);
      }
    }
    front = next;
  }
  if (!before.has(to)) return undefined;
  const channels: string[] = [];
  const cavities = [to];
  for (let step = before.get(to); step !== undefined; step = before.get(step.cavity)) {
    channels.push(step.channel);
    cavities.push(step.cavity);
  }
  return { cavities: cavities.reverse(), channels: channels.reverse() };
}
