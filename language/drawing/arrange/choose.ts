/** Orientations of parts: each is turned so that its lugs face the parts they are wired to. */
import type { Diagram, DiagramRun } from '../diagram/diagram.js';
import { firstOf, itemAt, valueFor } from '../../collections.js';
import { crosses, type Point } from '../geometry.js';
import type { LayoutResult } from '../layout.js';
import type { Access, Pad } from '../symbols/symbol.js';
import type { Block } from './block.js';
import { linkCost, placedPads } from '../placed.js';

/** What a likely crossing counts, in grid steps of wire. */
const crossingCost = 20;
const rounds = 4;

/** Turns one part at a time while the wires get shorter or cross less; the order of parts is fixed, so the result is too. */
export function chooseOrientations(diagram: Diagram, blocks: readonly Block[], places: LayoutResult): Map<string, number> {
  const choice = new Map<string, number>();
  const pads = new Map<string, Pad>();
  const slots = blocks.flatMap((block) => block.slots.map((slot) => ({ slot, origin: valueFor(places, block.id) })));
  const put = ({ slot, origin }: (typeof slots)[number], orientation: number): void => {
    choice.set(slot.id, orientation);
    for (const placed of itemAt(slot.orientations, orientation)) {
      for (const pad of placedPads({ ...placed, x: placed.x + origin.x, y: placed.y + origin.y })) pads.set(pad.lug, pad);
    }
  };
  for (const entry of slots) put(entry, 0);
  const runs = diagram.runs.filter((run) => pads.has(run.from) && pads.has(run.to));

  for (let round = 0; round < rounds; round++) {
    let isChanged = false;
    for (const entry of slots) {
      if (entry.slot.orientations.length < 2) continue;
      const before = valueFor(choice, entry.slot.id);
      const lugs = new Set(firstOf(entry.slot.orientations).flatMap((placed) => placed.symbol.pads.map((pad) => pad.lug)));
      const own = runs.filter((run) => lugs.has(run.from) || lugs.has(run.to));
      const others = runs.filter((run) => !own.includes(run));
      let best = { orientation: before, cost: Infinity };
      entry.slot.orientations.forEach((_, orientation) => {
        put(entry, orientation);
        const cost = costOf(own, others, pads) + (orientation === before ? 0 : 0.5);
        if (cost < best.cost) best = { orientation, cost };
      });
      put(entry, best.orientation);
      isChanged ||= best.orientation !== before;
    }
    if (!isChanged) break;
  }
  return choice;
}

function costOf(own: readonly DiagramRun[], others: readonly DiagramRun[], pads: ReadonlyMap<string, Pad>): number {
  let cost = 0;
  own.forEach((run, index) => {
    const [a, b] = [valueFor(pads, run.from), valueFor(pads, run.to)];
    cost += linkCost(a.accesses, b.accesses);
    for (const other of [...own.slice(index + 1), ...others]) {
      if ([run.from, run.to].some((lug) => lug === other.from || lug === other.to)) continue;
      const [c, d] = [valueFor(pads, other.from), valueFor(pads, other.to)];
      if (crosses(middle(a), middle(b), middle(c), middle(d))) cost += crossingCost;
    }
  });
  return cost;
}

/** A wire leaves a lug on the side that is open, so it is that point that counts. */
function middle(pad: Pad): Access | Point {
  return pad.accesses[0] ?? pad;
}
