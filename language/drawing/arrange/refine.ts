/** The last hand on an arrangement: parts are turned, exchanged, pushed and put elsewhere wherever the wires, really laid, get cheaper. */
import { firstOf, itemAt, valueFor } from '../../collections.js';
import { grid, grow, overlaps, type Box, type Point } from '../geometry.js';
import type { Session } from '../router/session.js';
import type { Block } from './block.js';
import type { Estimate } from './estimate.js';
import { exchanged, likelyPlaces, likelyOrientations, pushes } from './moves.js';
import { boxOf, gap, isClear, type Placer, type Placement, type Obstacles } from './placement.js';

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

export interface Task extends Obstacles {
  /** Those that may go elsewhere, and those that may be turned. */
  readonly movable: readonly Block[];
  readonly turnable: readonly Block[];
  readonly placedAt: Placer;
  readonly estimate: Estimate;
  /** What a placement costs beside its wires. */
  readonly layoutCost: (placement: Placement) => number;

  /** Where blocks may stand. */
  readonly room: Box;
  /** Grid points that may be looked at. */
  readonly budget: number;
}

/** Tries every small change in turn and keeps those that pay, until none does; then shakes the arrangement where wires cross, and climbs again, until the work is spent. */
export function refine(task: Task, session: Session, placement: Placement): Placement {
  const climber = new Climber(task, session, placement);
  climber.climb(task.turnable, rounds.whole);
  shake(task, session, climber);
  session.polish();
  return climber.placement();
}

type Moves = readonly (readonly [Block, Point])[];

/** Goes from one placement to the next while the wires, really laid, get cheaper. */
class Climber {
  readonly #task: Task;
  readonly #session: Session;
  #current: Placement;
  #cost: number;
  #looks = 0;

  constructor(task: Task, session: Session, start: Placement) {
    this.#task = task;
    this.#session = session;
    this.#current = start;
    this.#cost = session.cost() + task.layoutCost(start);
  }

  placement(): Placement {
    return this.#current;
  }

  cost(): number {
    return this.#cost;
  }

  /** Climbs with the given blocks only. */
  climb(among: readonly Block[], rounds: number): void {
    const mobile = among.filter((block) => this.#task.movable.includes(block));
    const tries = [
      ...among.map((block) => () => this.#turn(block)),
      ...mobile.map((block) => () => this.#exchange(block, mobile)),
      ...mobile.map((block) => () => this.#putElsewhere(block)),
    ];
    for (let round = 0; round < rounds; round++) {
      const before = this.#cost;
      for (const tryIt of tries) {
        if (this.#isSpent()) return;
        tryIt();
      }
      for (const block of mobile) this.#push(block);
      if (this.#cost > before - least || this.#isSpent()) break;
    }
  }

  /** Moves where it is asked to, whatever it costs; false where there is no room. */
  leap(moves: Moves): boolean {
    const next = this.#moved(moves);
    if (!next || !this.#session.move(this.#task.placedAt(this.#task.blocks, next), Infinity)) return false;
    this.#current = next;
    this.#cost = this.#session.cost() + this.#task.layoutCost(next);
    return true;
  }

  /** How to come back here. */
  keep(): () => void {
    const [placement, cost, back] = [this.#current, this.#cost, this.#session.keep()];
    return () => {
      back();
      this.#current = placement;
      this.#cost = cost;
    };
  }

  #turn(block: Block): void {
    for (const slot of block.slots) {
      for (const orientation of likelyOrientations(slot, this.#current, block, this.#task.estimate)) {
        const choice = new Map(this.#current.choice).set(slot.id, orientation);
        this.#attempt({ ...this.#current, choice }, [block], hope.change);
      }
    }
  }

  #exchange(block: Block, mobile: readonly Block[]): void {
    for (const other of this.#task.movable) {
      if (other !== block && (!mobile.includes(other) || block.id < other.id))
        this.#put(exchanged(block, other, this.#current), hope.change);
    }
  }

  #putElsewhere(block: Block): void {
    const { estimate, room } = this.#task;
    for (const at of likelyPlaces(block, this.#current, estimate, room, (box) => this.#isFree(box, [block])))
      this.#put([[block, at]], hope.change);
  }

  #push(block: Block): void {
    for (const push of pushes) {
      const at = valueFor(this.#current.places, block.id);
      this.#put([[block, { x: at.x + push.x, y: at.y + push.y }]], hope.push);
    }
  }

  #put(moves: Moves, hoped: number): void {
    const next = this.#moved(moves);
    const changed = moves.map(([block]) => block);
    if (next) this.#attempt(next, changed, hoped);
  }

  #attempt(next: Placement, changed: readonly Block[], hoped: number): void {
    const { blocks, placedAt, estimate, layoutCost } = this.#task;
    this.#looks += estimate.wires + blocks.length;
    if (this.#isSpent() || estimate.of(next, changed) > estimate.of(this.#current, changed) + hoped) return;
    const back = this.#session.keep();
    if (!this.#session.move(placedAt(blocks, next), patience)) return;
    const reached = this.#session.cost() + layoutCost(next);
    if (reached <= this.#cost - least) {
      this.#current = next;
      this.#cost = reached;
    } else back();
  }

  /** The placement with some blocks elsewhere; nothing where they have no room there. */
  #moved(moves: Moves): Placement | undefined {
    this.#looks += this.#task.blocks.length;
    const places = new Map(this.#current.places);
    for (const [block, at] of moves) places.set(block.id, at);
    const next = { ...this.#current, places };
    const changed = moves.map(([block]) => block);
    const boxes = changed.map((block) => boxOf(block, next));
    const isRoomy = boxes.every(
      (box, index) => this.#isFree(box, changed) && !boxes.slice(index + 1).some((other) => overlaps(grow(box, gap), other)),
    );
    return isRoomy ? next : undefined;
  }

  #isFree(box: Box, but: readonly Block[]): boolean {
    return isClear(box, but, this.#task, this.#current);
  }

  #isSpent(): boolean {
    return this.#session.steps() > this.#task.budget || this.#looks > mostLooks;
  }
}

/** Leaps with the parts whose wires cross, each followed by a climb near it, and kept where it paid. The dice are seeded: the same diagram falls the same. */
function shake({ movable, turnable, estimate, room, budget }: Task, session: Session, climber: Climber): void {
  if (movable.length < 2) return;
  const dice = createDice(movable.length);
  const lugsOf = (block: Block): readonly string[] =>
    block.slots.flatMap((slot) => firstOf(slot.orientations).flatMap(({ symbol }) => symbol.pads.map((pad) => pad.lug)));
  const choices = movable.map((block) => ({ block, lugs: lugsOf(block) }));
  for (let round = 0; round < mostShakes && session.steps() < budget; round++) {
    const trouble = session.trouble();
    if (trouble.size === 0) return;
    const weights = choices.map(({ lugs }) => lugs.reduce((sum, lug) => sum + (trouble.get(lug) ?? 0), 40));
    const { block } = itemAt(choices, dice.weighted(weights));
    const other = itemAt(movable, dice.below(movable.length));
    const placement = climber.placement();
    const back = climber.keep();
    const before = climber.cost();
    const at = {
      x: room.x + grid * dice.below(Math.max(1, (room.width - block.width) / grid)),
      y: room.y + grid * dice.below(Math.max(1, (room.height - block.height) / grid)),
    };
    const moves = other !== block && dice.below(2) === 0 ? exchanged(block, other, placement) : [[block, at] as const];
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
