/** Wires on one lug may lie on each other for the last steps before it, as they do in the hand. */
import { append } from '../../collections.js';
import { forEachPoint, markAll, markPoint } from './marks.js';
import type { Field, Gate, Route } from './grid-field.js';

export interface Joined {
  readonly id: string;
  readonly from: readonly Gate[];
  readonly to: readonly Gate[];
  /** The two lugs that the wire joins. */
  readonly lugs: readonly [string, string];
  /** Wires of one bundle have the same number. */
  readonly bundle?: number;
}

export interface Joints {
  /** Does something as if the other wires on a wire's lugs ended some steps before them; it had better still not lie on them. */
  without<T>(task: Joined, act: () => T): T;
}

/** Grid points of a wire, from its lug, that others on this lug may share. */
const sharedPoints = 4;
/** In the prices of the search: to lie on another wire of the lug for a step. */
const joinPrice = 12;

/** `routes` are those laid so far, by id of wire; they are read again at each act. */
export function createJoints(field: Field, tasks: readonly Joined[], routes: ReadonlyMap<string, Route>): Joints {
  const byLug = new Map<string, Joined[]>();
  for (const task of tasks) for (const lug of new Set(task.lugs)) append(byLug, lug, task);
  const count = (task: Joined, by: 1 | -1): void => {
    for (const other of new Set(task.lugs.flatMap((lug) => byLug.get(lug) ?? []))) {
      const route = routes.get(other.id);
      if (route && other.id !== task.id) countEnds(field, other, route, task.lugs, by);
    }
  };
  return {
    without(task, act) {
      count(task, -1);
      const result = act();
      count(task, 1);
      return result;
    },
  };
}

/** Counts the last points of a route before any of these lugs in or out of the field. */
function countEnds(field: Field, { from, to, ...task }: Joined, route: Route, lugs: readonly string[], by: 1 | -1): void {
  const { surcharge, wires } = field;
  const last = route.cells.length - 1;
  const [isFirst, isLast] = [lugs.includes(task.lugs[0]), lugs.includes(task.lugs[1])];
  const tips = [from[route.from]?.tip, to[route.to]?.tip].map((tip, end) => ((end === 0 ? isFirst : isLast) ? tip : undefined));
  // A joint within a piece of metal lies up to two steps from the first point.
  const [mostFirst = 0, mostLast = 0] = tips.map((tip) => sharedPoints - (tip === undefined ? 0 : 1));
  forEachPoint(field, route, (cell, one, other, index) => {
    if (!(isFirst && index < mostFirst) && !(isLast && last - index < mostLast)) return;
    markPoint(field, cell, one, other, by);
    surcharge[cell] = (surcharge[cell] ?? 0) - by * joinPrice;
  });
  for (const tip of tips) if (tip !== undefined) markAll(wires, tip, by);
}
