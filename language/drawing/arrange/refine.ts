/** The last hand on an arrangement: parts are turned, exchanged and pushed a little wherever the wires, really laid, get cheaper. */
import type { Diagram } from '../diagram.js';
import { grid, grow, overlaps, type Box, type Point } from '../geometry.js';
import type { Session } from '../router/session.js';
import type { Block } from './block.js';
import { placedIn } from './graph.js';
import { linkCost, placedPads, type PlacedSymbol } from './placed.js';

export interface Stand {
  readonly places: ReadonlyMap<string, Point>;
  readonly choice: ReadonlyMap<string, number>;
}

/** Room that stays between two blocks, for wires. */
const gap = 3 * grid;
/** What a change must win, so that nothing is moved for next to nothing. */
const least = 6;
const pushes: readonly Point[] = [
  { x: 0, y: -1 },
  { x: 0, y: 1 },
  { x: 0, y: -3 },
  { x: 0, y: 3 },
  { x: 0, y: -8 },
  { x: 0, y: 8 },
  { x: -2, y: 0 },
  { x: 2, y: 0 },
  { x: -5, y: 0 },
  { x: 5, y: 0 },
];

/** Where a block's symbols lie; the same objects for the same place and way, so that nothing is made anew for what stands still. */
export function createPlacer(): (blocks: readonly Block[], stand: Stand) => PlacedSymbol[] {
  const known = new Map<string, PlacedSymbol[]>();
  return (blocks, { places, choice }) =>
    blocks.flatMap((block) => {
      const origin = places.get(block.id)!;
      const key = `${block.id} ${origin.x} ${origin.y} ${block.slots.map((slot) => choice.get(slot.id) ?? 0).join()}`;
      let placed = known.get(key);
      if (!placed) {
        placed = placedIn(block, choice).map((symbol) => ({ ...symbol, x: symbol.x + origin.x, y: symbol.y + origin.y }));
        known.set(key, placed);
      }
      return placed;
    });
}

/** Tries every small change in turn and keeps those that pay, until none does or the work is spent. */
export function refine(
  diagram: Diagram,
  placedAt: ReturnType<typeof createPlacer>,
  blocks: readonly Block[],
  session: Session,
  stand: Stand,
  fixed: readonly Box[],
  budget: number,
): Stand {
  let current = stand;
  let cost = session.cost();
  const estimate = createEstimate(diagram, blocks, placedAt);
  /** `hope` is by how many grid steps the change may look worse at first sight and still be tried. */
  const attempt = (next: Stand, changed: readonly Block[], hope: number): boolean => {
    if (session.steps() > budget || estimate(next, changed) > estimate(current, changed) + hope) return false;
    const undo = session.move(placedAt(blocks, next));
    if (!undo) return false;
    const reached = session.cost();
    if (reached <= cost - least) {
      current = next;
      cost = reached;
      return true;
    }
    undo();
    return false;
  };
  const isFree = (block: Block, at: Point, but: readonly string[]): boolean => {
    const box = grow({ ...at, width: block.width, height: block.height }, gap);
    const others = blocks.filter((other) => other !== block && !but.includes(other.id));
    return ![
      ...fixed,
      ...others.map((other) => ({ ...current.places.get(other.id)!, width: other.width, height: other.height })),
    ].some((other) => overlaps(box, other));
  };
  /** The jack that ends the reading order stays the rightmost. */
  const keepsOrder = (block: Block, at: Point): boolean => {
    if (!block.slots.some((slot) => slot.ways[0]!.some(({ part }) => part.kind === 'jack'))) return true;
    const middle = at.x + block.width / 2;
    return blocks.every(
      (other) =>
        other === block || current.places.get(other.id)!.x + other.width / 2 <= middle || at.x >= current.places.get(block.id)!.x,
    );
  };
  const movable = blocks.filter((block) => block.group === undefined);

  for (let round = 0; round < 4; round++) {
    const before = cost;
    for (const block of blocks) {
      for (const slot of block.slots) {
        for (const way of otherWays(slot.ways.length, current.choice.get(slot.id) ?? 0, slot.ways[0]!)) {
          attempt({ ...current, choice: new Map(current.choice).set(slot.id, way) }, [block], 12);
        }
      }
    }
    for (const [upper, lower] of neighbours(movable, current.places)) {
      const [a, b] = [current.places.get(upper.id)!, current.places.get(lower.id)!];
      const places = new Map(current.places);
      const bottom = b.y + lower.height;
      places.set(lower.id, { x: b.x, y: a.y });
      places.set(upper.id, { x: a.x, y: bottom - upper.height });
      if (isFree(lower, places.get(lower.id)!, [upper.id]) && isFree(upper, places.get(upper.id)!, [lower.id]))
        attempt({ ...current, places }, [upper, lower], 12);
    }
    for (const block of movable) {
      for (const push of pushes) {
        const at = current.places.get(block.id)!;
        const to = { x: at.x + push.x * grid, y: at.y + push.y * grid };
        if (isFree(block, to, []) && keepsOrder(block, to))
          attempt({ ...current, places: new Map(current.places).set(block.id, to) }, [block], 1);
      }
    }
    if (cost > before - least || session.steps() > budget) break;
  }
  session.polish();
  return current;
}

/** About what the wires of some blocks cost, without laying them. */
function createEstimate(
  diagram: Diagram,
  blocks: readonly Block[],
  placedAt: ReturnType<typeof createPlacer>,
): (stand: Stand, of: readonly Block[]) => number {
  const blockOf = new Map(
    blocks.flatMap((block) =>
      block.slots.flatMap((slot) => slot.ways[0]!.flatMap(({ symbol }) => symbol.pads.map((pad) => [pad.lug, block] as const))),
    ),
  );
  const runs = diagram.runs.filter((run) => blockOf.has(run.from) && blockOf.has(run.to));
  const runsOf = new Map(
    blocks.map((block) => [block, runs.filter((run) => blockOf.get(run.from) === block || blockOf.get(run.to) === block)]),
  );
  return (stand, of) => {
    const mine = [...new Set(of.flatMap((block) => runsOf.get(block)!))];
    const near = new Set(mine.flatMap((run) => [blockOf.get(run.from)!, blockOf.get(run.to)!]));
    const pads = new Map(
      placedAt([...near], stand).flatMap((placed) => placedPads(placed).map((pad) => [pad.lug, pad] as const)),
    );
    return mine.reduce((sum, run) => sum + linkCost(pads.get(run.from)!.accesses, pads.get(run.to)!.accesses), 0);
  };
}

/** The ways worth trying from the present one: all of a few, else those that come next in order. */
function otherWays(count: number, present: number, way: readonly PlacedSymbol[]): number[] {
  const all = Array.from({ length: count }, (_, index) => index).filter((index) => index !== present);
  if (count <= 6) return all;
  // Orders of leads are listed so that neighbours in the list differ in the last leads; a fixed sample of them is enough to climb.
  const stride = way.length > 0 ? Math.ceil(count / 24) : 1;
  return all.filter((index) => Math.abs(index - present) <= 6 || index % stride === 0);
}

/** Pairs that stand one above the other with nothing between. */
function neighbours(blocks: readonly Block[], places: ReadonlyMap<string, Point>): [Block, Block][] {
  const pairs: [Block, Block][] = [];
  for (const a of blocks) {
    for (const b of blocks) {
      const [p, q] = [places.get(a.id)!, places.get(b.id)!];
      const isSameColumn = p.x < q.x + b.width && q.x < p.x + a.width;
      if (a !== b && isSameColumn && p.y < q.y) pairs.push([a, b]);
    }
  }
  return pairs;
}
