/** About what wires would cost if blocks stood otherwise, without laying them: length, bends, and crossings as the crow flies. */
import type { Diagram } from '../diagram/diagram.js';
import type { Point } from '../geometry.js';
import type { Pad } from '../symbols/symbol.js';
import type { Block } from './block.js';
import { placedIn } from './unit.js';
import { linkCost, middleOf, placedPads } from '../placed.js';
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

/** A wire as the crow flies: its blocks' places, its pads in their blocks, and its ends. */
interface Line {
  readonly p: Point;
  readonly q: Point;
  readonly a: Pad;
  readonly b: Pad;
  readonly start: Point;
  readonly end: Point;
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
  const padsByWay = new Map(blocks.map((block) => [block, new Map<string | number, ReadonlyMap<string, Pad>>()]));
  /** The block's pads in its own frame. */
  const padsOf = (block: Block, { choice }: Stand): ReadonlyMap<string, Pad> => {
    const ways = block.slots.map((slot) => choice.get(slot.id) ?? 0);
    const key = ways.length === 1 ? ways[0]! : ways.join();
    const byWay = padsByWay.get(block)!;
    let pads = byWay.get(key);
    if (!pads) {
      pads = new Map(placedIn(block, choice).flatMap((placed) => placedPads(placed).map((pad) => [pad.lug, pad] as const)));
      byWay.set(key, pads);
    }
    return pads;
  };
  // A stand differs from the one that was looked at before in a block or two: most lines are still true.
  const known: (Line | undefined)[] = wires.map(() => undefined);
  const lineOf = (stand: Stand, index: number): Line | undefined => {
    const { from, to, fromBlock, toBlock } = wires[index]!;
    const [p, q] = [stand.places.get(fromBlock.id), stand.places.get(toBlock.id)];
    if (!p || !q) return undefined;
    const [a, b] = [padsOf(fromBlock, stand).get(from)!, padsOf(toBlock, stand).get(to)!];
    const before = known[index];
    if (before && before.p === p && before.q === q && before.a === a && before.b === b) return before;
    const line = { p, q, a, b, start: placeOf(p, a), end: placeOf(q, b) };
    known[index] = line;
    return line;
  };

  return {
    wires: wires.length,
    neighbours: (some) =>
      new Set(some.flatMap((block) => [block, ...wiresOf.get(block)!.flatMap((wire) => [wire.fromBlock, wire.toBlock])])),
    of(stand, changed) {
      const lines = wires.map((_, index) => lineOf(stand, index));
      let cost = 0;
      for (let index = 0; index < wires.length; index++) {
        const own = lines[index];
        if (!own || !isOf(wires[index]!, changed)) continue;
        cost += linkCost(own.a.accesses, own.b.accesses, { x: own.p.x - own.q.x, y: own.p.y - own.q.y });
        for (let other = 0; other < wires.length; other++) {
          const there = lines[other];
          // What two of them make between them is counted once.
          if (!there || other === index || (other < index && isOf(wires[other]!, changed))) continue;
          if (crosses(own, there) && !meets(wires[index]!, wires[other]!)) cost += crossingCost;
        }
      }
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
            other: placeOf(stand.places.get(far.id)!, padsOf(far, stand).get(other)!),
          },
        ];
      });
    },
  };
}

function placeOf(origin: Point, pad: Pad): Point {
  const at = middleOf(pad);
  return { x: origin.x + at.x, y: origin.y + at.y };
}

function isOf({ fromBlock, toBlock }: Wire, blocks: readonly Block[]): boolean {
  return blocks.includes(fromBlock) || blocks.includes(toBlock);
}

function meets(a: Wire, b: Wire): boolean {
  return a.from === b.from || a.from === b.to || a.to === b.from || a.to === b.to;
}

function crosses({ start: a, end: b }: Line, { start: c, end: d }: Line): boolean {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

function side(p: Point, q: Point, r: Point): number {
  return Math.sign((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
}
