/** Which wires go through which channels and cavities: the bore must hold them, and the drawing must have room for them. */
import { firstOf, lastOf } from '../../collections.js';
import type { Diagram, DiagramRun } from '../diagram/diagram.js';

export interface Passages {
  /** Number of wires in each channel, by its id: every wire takes the fewest channels between the cavities of its two lugs. */
  readonly loads: ReadonlyMap<string, number>;
  /** By a cavity's id, how many wires pass through it between others, and how many come from another to end in it. */
  readonly through: ReadonlyMap<string, number>;
  readonly ending: ReadonlyMap<string, number>;
  /** Wires that lie in cavities and channels from one end to the other, by their ids, with the channels on their route: none of their length may be drawn in the wood. */
  readonly bound: ReadonlyMap<string, readonly string[]>;
}

export function passagesOf(diagram: Diagram): Passages {
  const [loads, through, ending] = [new Map<string, number>(), new Map<string, number>(), new Map<string, number>()];
  const bound = new Map<string, readonly string[]>();
  const count = (counts: Map<string, number>, id: string): void => void counts.set(id, (counts.get(id) ?? 0) + 1);
  const cavityOf = new Map(
    diagram.parts.flatMap((part) => part.lugs.map((lug) => [lug.id, topGroup(diagram, part.group)] as const)),
  );
  for (const run of diagram.runs) {
    const path = pathOf(diagram, run, cavityOf);
    if (!path) continue;
    bound.set(run.id, path.channels);
    for (const channel of path.channels) count(loads, channel);
    if (path.channels.length > 0) for (const end of [firstOf(path.cavities), lastOf(path.cavities)]) count(ending, end);
    for (const cavity of path.cavities.slice(1, -1)) count(through, cavity);
  }
  return { loads, through, ending, bound };
}

/** The cavity that a group lies in, however deep. */
export function topGroup(diagram: Diagram, id: string | undefined): string | undefined {
  const parent = diagram.groups.find((group) => group.id === id)?.parent;
  return parent === undefined ? id : topGroup(diagram, parent);
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
