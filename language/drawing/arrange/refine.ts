/** The last hand on an arrangement: parts are turned, exchanged, pushed and put elsewhere wherever the wires, really laid, get cheaper. */
import { grid, grow, overlaps, type Box, type Point } from '../geometry.js';
import type { Session } from '../router/session.js';
import type { Block } from './block.js';
import type { Estimate } from './estimate.js';
import { exchanged, likelyPlaces, likelyWays, pushes } from './moves.js';
import { boxOf, isClear, type Placer, type Stand } from './stand.js';

/** Room that stays between two blocks, for wires. */
const gap = 3 * grid;
/** What a change must win, so that nothing is moved for next to nothing. */
const least = 6;
/** By how much the wires that a change concerns may first become dearer than they were: others may gain by it. */
const patience = 120;
/** By how many grid steps a change may look worse as the crow flies and still be tried; less for a mere push. */
const hope = { change: 60, push: 1 } as const;
/** Rounds of a climb with all blocks, and with those near to where it was shaken. */
const rounds = { whole: 4, near: 2 } as const;
const mostShakes = 200;
/** Looks at a wire or a block before any wire is laid, in all: an instrument of ordinary size needs a twentieth of them. */
const mostLooks = 600_000;

export interface Task {
  readonly blocks: readonly Block[];
  /** Those that may go elsewhere, and those that may be turned. */
  readonly movable: readonly Block[];
  readonly turnable: readonly Block[];
  readonly placedAt: Placer;
  readonly estimate: Estimate;
  /** What a stand costs beside its wires. */
  readonly manners: (stand: Stand) => number;
  /** What no block may stand on. */
  readonly fixed: readonly Box[];
  /** Where blocks may stand. */
  readonly room: Box;
  /** Grid points that may be looked at. */
  readonly budget: number;
}

/** Tries every small change in turn and keeps those that pay, until none does; then shakes the arrangement where wires cross, and climbs again, until the work is spent. */
export function refine(task: Task, session: Session, stand: Stand): Stand {
  const climber = createClimber(task, session, stand);
  climber.climb(task.turnable, rounds.whole);
  shake(task, session, climber);
  session.polish();
  return climber.stand();
}

interface Climber {
  stand(): Stand;
  cost(): number;
  /** Climbs with the given blocks only. */
  climb(among: readonly Block[], rounds: number): void;
  /** Goes where it is told, whatever it costs; false where there is no room. */
  leap(moved: readonly (readonly [Block, Point])[]): boolean;
  /** How to come back here. */
  keep(): () => void;
}

function createClimber(task: Task, session: Session, start: Stand): Climber {
  const { blocks, movable, placedAt, estimate, manners, fixed, room, budget } = task;
  let current = start;
  let cost = session.cost() + manners(start);
  let looks = 0;
  const isSpent = (): boolean => session.steps() > budget || looks > mostLooks;

  const attempt = (next: Stand, changed: readonly Block[], hoped: number): boolean => {
    looks += estimate.wires + blocks.length;
    if (isSpent() || estimate.of(next, changed) > estimate.of(current, changed) + hoped) return false;
    const back = session.keep();
    if (!session.move(placedAt(blocks, next), patience)) return false;
    const reached = session.cost() + manners(next);
    if (reached <= cost - least) {
      current = next;
      cost = reached;
      return true;
    }
    back();
    return false;
  };
  const isFree = (box: Box, but: readonly Block[]): boolean => isClear(box, gap, but, blocks, fixed, current);
  /** The stand with some blocks elsewhere; nothing where they have no room there. */
  const moved = (moves: readonly (readonly [Block, Point])[]): Stand | undefined => {
    looks += blocks.length;
    const places = new Map(current.places);
    for (const [block, at] of moves) places.set(block.id, at);
    const next = { ...current, places };
    const changed = moves.map(([block]) => block);
    const boxes = changed.map((block) => boxOf(block, next));
    const isRoomy = boxes.every(
      (box, index) => isFree(box, changed) && !boxes.slice(index + 1).some((other) => overlaps(grow(box, gap), other)),
    );
    return isRoomy ? next : undefined;
  };
  const put = (moves: readonly (readonly [Block, Point])[], hoped: number): void => {
    const next = moved(moves);
    const changed = moves.map(([block]) => block);
    if (next) attempt(next, changed, hoped);
  };

  return {
    stand: () => current,
    cost: () => cost,
    climb(among, rounds) {
      const mobile = among.filter((block) => movable.includes(block));
      for (let round = 0; round < rounds; round++) {
        const before = cost;
        for (const block of among) {
          if (isSpent()) return;
          for (const slot of block.slots) {
            for (const way of likelyWays(slot, current, block, estimate))
              attempt({ ...current, choice: new Map(current.choice).set(slot.id, way) }, [block], hope.change);
          }
        }
        for (const block of mobile) {
          if (isSpent()) return;
          for (const other of movable) {
            if (other !== block && (!mobile.includes(other) || block.id < other.id))
              put(exchanged(block, other, current), hope.change);
          }
        }
        for (const block of mobile) {
          if (isSpent()) return;
          for (const at of likelyPlaces(block, current, estimate, room, (box) => isFree(box, [block])))
            put([[block, at]], hope.change);
        }
        for (const block of mobile) {
          for (const push of pushes) {
            const at = current.places.get(block.id)!;
            put([[block, { x: at.x + push.x, y: at.y + push.y }]], hope.push);
          }
        }
        if (cost > before - least || isSpent()) break;
      }
    },
    leap(moves) {
      const next = moved(moves);
      if (!next || !session.move(placedAt(blocks, next), Infinity)) return false;
      current = next;
      cost = session.cost() + manners(next);
      return true;
    },
    keep() {
      const [stand, price, back] = [current, cost, session.keep()];
      return () => {
        back();
        current = stand;
        cost = price;
      };
    },
  };
}

/** Leaps with the parts whose wires cross, each followed by a climb near it, and kept where it paid. The dice are seeded: the same diagram falls the same. */
function shake({ movable, turnable, estimate, room, budget }: Task, session: Session, climber: Climber): void {
  if (movable.length < 2) return;
  const dice = createDice(movable.length);
  const lugs = new Map(
    movable.map((block) => [
      block,
      block.slots.flatMap((slot) => slot.ways[0]!.flatMap(({ symbol }) => symbol.pads.map((pad) => pad.lug))),
    ]),
  );
  for (let round = 0; round < mostShakes && session.steps() < budget; round++) {
    const trouble = session.trouble();
    if (trouble.size === 0) return;
    const weights = movable.map((block) => lugs.get(block)!.reduce((sum, lug) => sum + (trouble.get(lug) ?? 0), 40));
    const block = movable[dice.weighted(weights)]!;
    const other = movable[dice.below(movable.length)]!;
    const stand = climber.stand();
    const back = climber.keep();
    const before = climber.cost();
    const at = {
      x: room.x + grid * dice.below(Math.max(1, (room.width - block.width) / grid)),
      y: room.y + grid * dice.below(Math.max(1, (room.height - block.height) / grid)),
    };
    const moves = other !== block && dice.below(2) === 0 ? exchanged(block, other, stand) : [[block, at] as const];
    if (!climber.leap(moves)) continue;
    const near = estimate.neighbours(moves.map(([moved]) => moved));
    climber.climb(
      turnable.filter((candidate) => near.has(candidate)),
      rounds.near,
    );
    if (climber.cost() > before - least) back();
  }
}

/** A linear congruential generator (Numerical Recipes' constants): no better chance is needed to leap about. */
function createDice(seed: number): { below(count: number): number; weighted(weights: readonly number[]): number } {
  let state = seed >>> 0;
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  return {
    below: (count) => Math.floor(next() * count),
    weighted(weights) {
      let left = next() * weights.reduce((sum, weight) => sum + weight, 0);
      const found = weights.findIndex((weight) => (left -= weight) < 0);
      return found < 0 ? weights.length - 1 : found;
    },
  };
}
