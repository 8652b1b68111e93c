/** What a closed contact looks like: a line from tab to tab across the wafer, so that no letter is hidden. */
import type { DiagramPart } from '../diagram/diagram.js';
import { pairwise } from '../../collections.js';
import type { Point } from '../geometry.js';
import type { SymbolBuilder } from './symbol.js';

/** Lines run from the inner end of each lug's tab to a spine, which lies `share` of the way to `middle`. */
export function addContacts(
  builder: SymbolBuilder,
  part: DiagramPart,
  places: ReadonlyMap<number, Point>,
  middle: number,
  share = 0.6,
): void {
  for (const contact of part.contacts) {
    const stops = contact.lugs.flatMap((lug) => places.get(lug) ?? []).sort((a, b) => a.y - b.y || a.x - b.x);
    if (stops.length < 2) continue;
    const inside = stops.map((stop) => ({ x: stop.x + (middle - stop.x) * share, y: stop.y }));
    builder.contact(contact.id, [
      ...stops.map((stop, index) => [stop, ...inside.slice(index, index + 1)]),
      ...pairwise(inside).map(([a, b]) => [a, b]),
    ]);
  }
}
