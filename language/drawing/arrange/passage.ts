/** How many wires go through which channel: the bore must hold them. */
import type { Diagram, DiagramRun } from '../diagram.js';

/** Number of wires in each channel, by its id: every wire takes the fewest channels between the cavities of its two lugs. */
export function channelLoads(diagram: Diagram): ReadonlyMap<string, number> {
  const loads = new Map<string, number>();
  if (diagram.channels.length === 0) return loads;
  const cavityOf = new Map(
    diagram.parts.flatMap((part) => part.lugs.map((lug) => [lug.id, topGroup(diagram, part.group)] as const)),
  );
  for (const run of diagram.runs)
    for (const channel of channelsOf(diagram, run, cavityOf)) loads.set(channel, (loads.get(channel) ?? 0) + 1);
  return loads;
}

/** The cavity that a group lies in, however deep. */
export function topGroup(diagram: Diagram, id: string | undefined): string | undefined {
  const parent = diagram.groups.find((group) => group.id === id)?.parent;
  return parent === undefined ? id : topGroup(diagram, parent);
}

function channelsOf(diagram: Diagram, run: DiagramRun, cavityOf: ReadonlyMap<string, string | undefined>): string[] {
  const [from, to] = [cavityOf.get(run.from), cavityOf.get(run.to)];
  if (from === undefined || to === undefined || from === to) return [];
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
  const channels: string[] = [];
  for (let step = before.get(to); step !== undefined; step = before.get(step.cavity)) channels.push(step.channel);
  return channels;
}
