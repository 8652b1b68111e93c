/** About what wires would cost if blocks stood otherwise, without laying them: length, bends, and crossings as the crow flies. */
import type { Diagram } from '../diagram.js';
import type { Point } from '../geometry.js';
import type { Pad } from '../symbol.js';
import type { Block } from './block.js';
import { placedIn } from './unit.js';
import { linkCost, middleOf, placedPads } from './placed.js';
import type { Stand } from './stand.js';

/** What a likely crossing counts, in grid steps of wire. */
const crossingCost = 30;

export interface Estimate {
  /** How many wires are looked at for an estimate. */
  readonly wires: number;
  /** In grid steps, for all runs that end on one of some blocks. */
  of(stand: Stand, blocks: readonly Block[]): number;
  /** The middle of what a block's runs lead to, run by run: the ends on other blocks, and the block's own in its frame. */
  links(stand: Stand, block: Block): readonly { readonly own: Point; readonly other: Point }[];
  /** Some blocks and those that they are wired to. */
  neighbours(blocks: readonly Block[]): ReadonlySet<Block>;
}

interface Wire {
  readonly from: string;
  readonly to: string;
  readonly fromBlock: Block;
  readonly toBlock: Block;
}

export function createEstimate(diagram: Diagram, blocks: readonly Block[]): Estimate {
  const blockOf = new Map(
    blocks.flatMap((block) =>
      block.slots.flatMap((slot) => slot.ways[0]!.flatMap(({ symbol }) => symbol.pads.map((pad) => [pad.lug, block] as const))),
    ),
  );
  const wires = diagram.runs.flatMap(({ from, to }): Wire[] => {
    const [fromBlock, toBlock] = [blockOf.get(from), blockOf.get(to)];
    return fromBlock && toBlock ? [{ from, to, fromBlock, toBlock }] : [];
  });
  const wiresOf = new Map(
    blocks.map((block) => [block, wires.filter((wire) => wire.fromBlock === block || wire.toBlock === block)]),
  );
  const known = new Map<string, ReadonlyMap<string, Pad>>();
  /** The block's pads in its own frame. */
  const padsOf = (block: Block, { choice }: Stand): ReadonlyMap<string, Pad> => {
    const key = `${block.id} ${block.slots.map((slot) => choice.get(slot.id) ?? 0).join()}`;
    const pads =
      known.get(key) ??
      new Map(placedIn(block, choice).flatMap((placed) => placedPads(placed).map((pad) => [pad.lug, pad] as const)));
    known.set(key, pads);
    return pads;
  };

  return {
    wires: wires.length,
    neighbours: (some) =>
      new Set(some.flatMap((block) => [block, ...wiresOf.get(block)!.flatMap((wire) => [wire.fromBlock, wire.toBlock])])),
    of(stand, changed) {
      const mine =
        changed.length === 1 ? wiresOf.get(changed[0]!)! : [...new Set(changed.flatMap((block) => wiresOf.get(block)!))];
      const line = (wire: Wire): readonly [Point, Point] => [
        placeOf(stand, wire.fromBlock, padsOf(wire.fromBlock, stand).get(wire.from)!),
        placeOf(stand, wire.toBlock, padsOf(wire.toBlock, stand).get(wire.to)!),
      ];
      const isPlaced = ({ fromBlock, toBlock }: Wire): boolean => stand.places.has(fromBlock.id) && stand.places.has(toBlock.id);
      const lines = new Map(wires.filter(isPlaced).map((wire) => [wire, line(wire)]));
      let cost = 0;
      mine.forEach((wire, index) => {
        const own = lines.get(wire);
        if (!own) return;
        const [a, b] = [padsOf(wire.fromBlock, stand).get(wire.from)!, padsOf(wire.toBlock, stand).get(wire.to)!];
        const [p, q] = [stand.places.get(wire.fromBlock.id)!, stand.places.get(wire.toBlock.id)!];
        cost += linkCost(a.accesses, b.accesses, { x: p.x - q.x, y: p.y - q.y });
        for (const other of wires) {
          if (other === wire || (mine.includes(other) && mine.indexOf(other) < index) || meets(wire, other)) continue;
          const there = lines.get(other);
          if (there && crosses(own[0], own[1], there[0], there[1])) cost += crossingCost;
        }
      });
      return cost;
    },
    links(stand, block) {
      return wiresOf.get(block)!.flatMap((wire) => {
        if (wire.fromBlock === wire.toBlock) return [];
        const [mine, other, far] =
          wire.fromBlock === block ? [wire.from, wire.to, wire.toBlock] : [wire.to, wire.from, wire.fromBlock];
        if (!stand.places.has(far.id)) return [];
        return [
          {
            own: middleOf(padsOf(block, stand).get(mine)!),
            other: placeOf(stand, far, padsOf(far, stand).get(other)!),
          },
        ];
      });
    },
  };
}

function placeOf(stand: Stand, block: Block, pad: Pad): Point {
  const origin = stand.places.get(block.id)!;
  const at = middleOf(pad);
  return { x: origin.x + at.x, y: origin.y + at.y };
}

function meets(a: Wire, b: Wire): boolean {
  return a.from === b.from || a.from === b.to || a.to === b.from || a.to === b.to;
}

function crosses(a: Point, b: Point, c: Point, d: Point): boolean {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

function side(p: Point, q: Point, r: Point): number {
  return Math.sign((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
}
