/** About what wires would cost if blocks stood otherwise, without laying them: length, bends, and crossings as the crow flies. */
import type { Diagram } from '../diagram/diagram.js';
import { firstOf, valueFor } from '../../collections.js';
import { crosses, type Point } from '../geometry.js';
import type { Pad } from '../symbols/symbol.js';
import type { Block } from './block.js';
import { placedIn } from './unit.js';
import { linkCost, middleOf, placedPads } from '../placed.js';
import type { Placement } from './placement.js';

/** What a likely crossing counts, in grid steps of wire. */
const crossingCost = 30;

export interface Estimate {
  /** How many wires are looked at for an estimate. */
  readonly wires: number;
  /** In grid steps, for all runs that end on one of some blocks. */
  of(placement: Placement, blocks: readonly Block[]): number;
  /** The middle of what a block's runs lead to, run by run: the ends on other blocks, and the block's own in its frame. */
  links(placement: Placement, block: Block): readonly { readonly own: Point; readonly other: Point }[];
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
  readonly wire: Wire;
  readonly p: Point;
  readonly q: Point;
  readonly a: Pad;
  readonly b: Pad;
  readonly start: Point;
  readonly end: Point;
}

export function createEstimate(diagram: Diagram, blocks: readonly Block[]): Estimate {
  const wires = wiresBetween(diagram, blocks);
  const wiresOf = new Map(
    blocks.map((block) => [block, wires.filter((wire) => wire.fromBlock === block || wire.toBlock === block)]),
  );
  const padsOf = createPads(blocks);
  const lineOf = createLines(padsOf);

  return {
    wires: wires.length,
    neighbours: (some) =>
      new Set(some.flatMap((block) => [block, ...valueFor(wiresOf, block).flatMap((wire) => [wire.fromBlock, wire.toBlock])])),
    of(placement, changed) {
      const drawn = wires.flatMap((wire) => lineOf(placement, wire) ?? []);
      const own = drawn.filter(({ wire }) => isOf(wire, changed));
      const rest = drawn.filter(({ wire }) => !isOf(wire, changed));
      let cost = 0;
      for (const [index, line] of own.entries()) {
        cost += linkCost(line.a.accesses, line.b.accesses, { x: line.p.x - line.q.x, y: line.p.y - line.q.y });
        // What two of them make between them is counted once.
        for (const other of own.slice(index + 1)) if (isCrossing(line, other)) cost += crossingCost;
        for (const other of rest) if (isCrossing(line, other)) cost += crossingCost;
      }
      return cost;
    },
    links(placement, block) {
      return valueFor(wiresOf, block).flatMap((wire) => {
        if (wire.fromBlock === wire.toBlock) return [];
        const [mine, other, far] =
          wire.fromBlock === block ? [wire.from, wire.to, wire.toBlock] : [wire.to, wire.from, wire.fromBlock];
        const place = placement.places.get(far.id);
        if (place === undefined) return [];
        return [
          {
            own: middleOf(valueFor(padsOf(block, placement), mine)),
            other: placeOf(place, valueFor(padsOf(far, placement), other)),
          },
        ];
      });
    },
  };
}

function wiresBetween(diagram: Diagram, blocks: readonly Block[]): readonly Wire[] {
  const blockOf = new Map(
    blocks.flatMap((block) =>
      block.slots.flatMap(({ orientations }) =>
        firstOf(orientations).flatMap(({ symbol }) => symbol.pads.map((pad) => [pad.lug, block] as const)),
      ),
    ),
  );
  return diagram.runs.flatMap(({ from, to }): Wire[] => {
    const [fromBlock, toBlock] = [blockOf.get(from), blockOf.get(to)];
    return fromBlock && toBlock ? [{ from, to, fromBlock, toBlock }] : [];
  });
}

/** A block's pads in its own frame. */
type PadsOf = (block: Block, placement: Placement) => ReadonlyMap<string, Pad>;

/** Pads by block and by the orientations chosen in it, each made once. */
function createPads(blocks: readonly Block[]): PadsOf {
  const padsByOrientation = new Map(blocks.map((block) => [block, new Map<string | number, ReadonlyMap<string, Pad>>()]));
  return (block, { choice }) => {
    const [slot, ...more] = block.slots;
    // Nearly every block has one slot: no text is made for it.
    const key = slot !== undefined && more.length === 0 ? (choice.get(slot.id) ?? 0) : orientationKey(block, choice);
    const byOrientation = valueFor(padsByOrientation, block);
    let pads = byOrientation.get(key);
    if (!pads) {
      pads = new Map(placedIn(block, choice).flatMap((placed) => placedPads(placed).map((pad) => [pad.lug, pad] as const)));
      byOrientation.set(key, pads);
    }
    return pads;
  };
}

function orientationKey({ slots }: Block, choice: ReadonlyMap<string, number>): string {
  return slots.map((slot) => choice.get(slot.id) ?? 0).join();
}

/** Lines of wires, each kept while its ends stay where they are: successive placements differ in only one or two blocks. */
function createLines(padsOf: PadsOf): (placement: Placement, wire: Wire) => Line | undefined {
  const known = new Map<Wire, Line>();
  return (placement, wire) => {
    const { from, to, fromBlock, toBlock } = wire;
    const [p, q] = [placement.places.get(fromBlock.id), placement.places.get(toBlock.id)];
    if (!p || !q) return undefined;
    const [a, b] = [valueFor(padsOf(fromBlock, placement), from), valueFor(padsOf(toBlock, placement), to)];
    const before = known.get(wire);
    if (before && before.p === p && before.q === q && before.a === a && before.b === b) return before;
    const line = { wire, p, q, a, b, start: placeOf(p, a), end: placeOf(q, b) };
    known.set(wire, line);
    return line;
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

function isCrossing(line: Line, other: Line): boolean {
  return crosses(line.start, line.end, other.start, other.end) && !meets(line.wire, other.wire);
}
