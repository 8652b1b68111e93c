/** What the workbench looks up by name or by part again and again, found once: plates, cavities, what a part in place is soldered to. */
import { lugById, type Cavity, type Channel, type Circuit, type Joint, type PartId, type Plate } from '../../circuit/model.js';

export interface PlaceIndex {
  readonly plates: ReadonlyMap<string, Plate>;
  readonly cavities: ReadonlyMap<string, Cavity>;
  /** The channels that open into a cavity, in the order of the text. */
  readonly channels: ReadonlyMap<string, readonly Channel[]>;
  /** The first solder joint of each part that has one. */
  readonly firstSolder: ReadonlyMap<PartId, Joint>;
  /** Half the girth of the box round the places that are measured in a cavity, in metres; only for cavities with two of them or more. */
  readonly extents: ReadonlyMap<string, number>;
}

export function placeIndex(circuit: Circuit): PlaceIndex {
  const firstSolder = new Map<PartId, Joint>();
  for (const joint of circuit.joints) {
    if (joint.kind !== 'solder') continue;
    for (const lug of [joint.a, joint.b]) {
      const { part } = lugById(circuit, lug);
      if (!firstSolder.has(part)) firstSolder.set(part, joint);
    }
  }
  const channels = new Map<string, Channel[]>();
  for (const channel of circuit.channels) {
    for (const cavity of new Set([channel.from, channel.to])) {
      const known = channels.get(cavity);
      if (known === undefined) channels.set(cavity, [channel]);
      else known.push(channel);
    }
  }
  return {
    plates: byName(circuit.plates),
    cavities: byName(circuit.cavities),
    channels,
    firstSolder,
    extents: extentsOf(circuit),
  };
}

/** Where a name is given twice the first one counts. */
function byName<T extends { readonly name: string }>(things: readonly T[]): ReadonlyMap<string, T> {
  const named = new Map<string, T>();
  for (const thing of things) if (!named.has(thing.name)) named.set(thing.name, thing);
  return named;
}

interface Box {
  count: number;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

function extentsOf(circuit: Circuit): ReadonlyMap<string, number> {
  const boxes = new Map<string, Box>();
  for (const { cavity, at } of circuit.parts) {
    if (cavity === undefined || at === undefined) continue;
    const box = boxes.get(cavity) ?? { count: 0, left: Infinity, right: -Infinity, top: Infinity, bottom: -Infinity };
    box.count += 1;
    box.left = Math.min(box.left, at.x);
    box.right = Math.max(box.right, at.x);
    box.top = Math.min(box.top, at.y);
    box.bottom = Math.max(box.bottom, at.y);
    boxes.set(cavity, box);
  }
  const measured = [...boxes].filter(([, { count }]) => count > 1);
  return new Map(measured.map(([cavity, { left, right, top, bottom }]) => [cavity, right - left + (bottom - top)]));
}
