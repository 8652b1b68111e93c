/** Wires that lie on each other: pairs that meet otherwise than by crossing, but for the last steps before a lug of both. */
import { append, itemAt } from '../../collections.js';
import { grid, type Point } from '../geometry.js';
import type { Pad } from '../symbols/symbol.js';
import type { Frame } from './field.js';
import { wiresAt, type Field } from './grid-field.js';
import { forEachPoint } from './marks.js';
import type { Laying, RouteTask } from './route.js';

/** Wires that are laid, with where their lugs lie. */
export interface LaidWires extends Pick<Laying, 'field' | 'routes'> {
  readonly frame: Frame;
  /** By id of lug. */
  readonly pads: ReadonlyMap<string, Pad>;
  readonly tasks: readonly RouteTask[];
}

/** Two wires with the grid points at which they meet. */
export interface Pair {
  readonly one: RouteTask;
  readonly other: RouteTask;
  readonly cells: readonly number[];
}

/** Half the side of the square around a joint in which the wires of one lug may lie on each other, drawing units. */
const sharedReach = 4 * grid;

/** All pairs, each once, in the order of the wires. */
export function pairsOf(laid: LaidWires): readonly Pair[] {
  const cells = new Set<number>();
  for (const task of laid.tasks)
    forEachPassing(laid, task, (cell, passing) => void (isMet(laid.field, cell, passing) && cells.add(cell)));
  if (cells.size === 0) return [];
  const passings = passingsAt(laid, cells);
  const rank = new Map(laid.tasks.map((task, index) => [task, index]));
  const isFirst = ({ one, other }: Pair): boolean => (rank.get(one) ?? 0) < (rank.get(other) ?? 0);
  return laid.tasks.flatMap((task) => pairsAt(laid, task, passings).filter(isFirst));
}

/** The pairs that one wire makes with others. */
export function pairsWith(laid: LaidWires, task: RouteTask): readonly Pair[] {
  const cells = new Set<number>();
  forEachPassing(laid, task, (cell) => void (wiresAt(laid.field.wires, cell) > 1 && cells.add(cell)));
  return cells.size === 0 ? [] : pairsAt(laid, task, passingsAt(laid, cells));
}

/** A wire that comes to a grid point by one axis and leaves it by another; −1 for both where it ends there. */
interface Passing {
  readonly task: RouteTask;
  readonly one: number;
  readonly other: number;
}

function pairsAt(laid: LaidWires, task: RouteTask, passings: ReadonlyMap<number, readonly Passing[]>): readonly Pair[] {
  const found = new Map<RouteTask, number[]>();
  for (const [cell, all] of passings) {
    const met = new Set<RouteTask>();
    for (const passing of all.filter((one) => one.task === task))
      for (const other of all) if (other.task !== task && !isCrossing(passing, other)) met.add(other.task);
    for (const other of met) if (!isShared(laid, cell, task, other)) append(found, other, cell);
  }
  return [...found].map(([other, cells]) => ({ one: task, other, cells }));
}

/** Who passes these grid points, and how. */
function passingsAt(laid: LaidWires, cells: ReadonlySet<number>): ReadonlyMap<number, readonly Passing[]> {
  const found = new Map<number, Passing[]>();
  for (const task of laid.tasks)
    forEachPassing(laid, task, (cell, passing) => void (cells.has(cell) && append(found, cell, passing)));
  return found;
}

/** Grid points of a wire with its joints. */
function forEachPassing({ field, routes }: LaidWires, task: RouteTask, visit: (cell: number, passing: Passing) => void): void {
  const route = routes.get(task.id);
  if (route === undefined) return;
  forEachPoint(field, route, (cell, one, other) => void visit(cell, { task, one, other }));
  for (const tip of [task.from[route.from]?.tip, task.to[route.to]?.tip])
    if (tip !== undefined) visit(tip, { task, one: -1, other: -1 });
}

/** Whether another wire passes the point otherwise than across; of two that meet, one sees it at least. */
function isMet({ wires }: Field, cell: number, { one, other }: Passing): boolean {
  if (one < 0) return wiresAt(wires, cell) > 4;
  return one === other ? (wires[4 * cell + one] ?? 0) > 1 : wiresAt(wires, cell) > 2;
}

function isCrossing(a: Passing, b: Passing): boolean {
  return a.one >= 0 && b.one >= 0 && a.one === a.other && b.one === b.other && a.one !== b.one;
}

/** True for a point so near to a lug of both wires that they may lie on each other there, and for a tie with its wire. */
function isShared(laid: LaidWires, cell: number, one: RouteTask, other: RouteTask): boolean {
  if (one.lugs.includes(other.id) || other.lugs.includes(one.id)) return true;
  const at = laid.frame.pointAt(cell);
  const isNear = (task: RouteTask, lug: string): boolean =>
    landingsOf(laid, task, lug).some(({ x, y }) => Math.max(Math.abs(at.x - x), Math.abs(at.y - y)) <= sharedReach);
  return one.lugs.some((lug) => isNear(one, lug) && isNear(other, lug));
}

/** Where a wire is soldered to a lug. */
function landingsOf({ routes, pads }: LaidWires, { id, lugs }: RouteTask, lug: string): readonly Point[] {
  const [route, pad] = [routes.get(id), pads.get(lug)];
  if (route === undefined || pad === undefined) return [];
  const ends = [
    { end: lugs[0], access: route.from },
    { end: lugs[1], access: route.to },
  ];
  return ends.flatMap(({ end, access }) => (end === lug ? [itemAt(pad.accesses, access).landing] : []));
}
