/** All wires' ways together: each takes the cheapest way beside the others, and the dear ones are taken up and laid again. */
import { itemAt, pairwise } from '../../collections.js';
import { prices, type Field, type Gate, type Meeting, type Search, type Way } from './search.js';

export interface RouteTask {
  readonly id: string;
  readonly from: readonly Gate[];
  readonly to: readonly Gate[];
  /** Lower is laid earlier. */
  readonly order: number;
  /** True for a wire that lies in cavities and channels from end to end. */
  readonly isBound: boolean;
}

const softOverlap = 1600;
/** Sums stay within what the search tells apart. */
const dearest = 8000;
const mostRounds = 8;
/** Grid points that may be looked at before wires are no longer taken up and laid again; no instrument comes near. */
const mostSteps = 5_000_000;

/**
 * Lays the tasks that have no way yet, then lays those that cross or clash again, at most so many rounds, while that changes any.
 * Clashes get the rounds that they need in any case.
 */
export function settle(field: Field, search: Search, tasks: readonly RouteTask[], ways: Map<string, Way>, rounds: number): void {
  const sorted = inOrder(tasks);
  let overlap = softOverlap;
  const lay = (task: RouteTask): boolean => {
    const before = ways.get(task.id);
    if (before) mark(field, before, -1);
    const way = findWay(field, search, task, { overlap, crossing: prices.crossing });
    if (way) {
      mark(field, way, 1);
      ways.set(task.id, way);
    }
    return way?.cells.join() !== before?.cells.join();
  };
  for (const task of sorted) if (!ways.has(task.id)) lay(task);
  const begun = search.steps();
  const isSpent = (): boolean => search.steps() - begun > mostSteps;
  for (let round = 0; round < mostRounds && !isSpent(); round++) {
    let isChanged = false;
    const dear = sorted
      .map((task) => ({ task, extra: extraOf(field, ways.get(task.id)) }))
      .filter(({ task, extra }) => extra > 0 && (round < rounds || clashes(field, ways.get(task.id))))
      .sort((a, b) => b.extra - a.extra || (a.task.id < b.task.id ? -1 : 1));
    for (const { task } of dear) {
      if (isSpent()) return;
      for (const cell of clashCells(field, ways.get(task.id))) field.surcharge[cell] = (field.surcharge[cell] ?? 0) + 24;
      if (lay(task)) isChanged = true;
    }
    if (!isChanged) {
      // Those that still share a stretch hold each other: they are taken up together and laid in the other order.
      const held = dear.map(({ task }) => task).filter((task) => clashes(field, ways.get(task.id)));
      if (held.length === 0) break;
      for (const task of held) {
        const way = ways.get(task.id);
        if (way) mark(field, way, -1);
        ways.delete(task.id);
      }
      for (const task of held.reverse()) lay(task);
    }
    overlap = Math.min(dearest, Math.round(overlap * 1.6));
  }
}

/** Lays tasks one after the other as long as they stay within what they may cost together; false where they do not. */
export function layWithin(
  field: Field,
  search: Search,
  tasks: readonly RouteTask[],
  ways: Map<string, Way>,
  allowance: number,
): boolean {
  let left = allowance;
  for (const task of inOrder(tasks)) {
    const way = findWay(field, search, task, { overlap: softOverlap, crossing: prices.crossing, limit: left });
    if (!way) return false;
    mark(field, way, 1);
    ways.set(task.id, way);
    left -= way.cost;
  }
  return true;
}

/** A bound wire leaves its channel only where there is no way in it. */
function findWay(field: Field, search: Search, { from, to, isBound }: RouteTask, meeting: Meeting): Way | undefined {
  return (
    search.find(field, from, to, { ...meeting, isBound }) ??
    (isBound && meeting.limit === undefined ? search.find(field, from, to, meeting) : undefined)
  );
}

function inOrder(tasks: readonly RouteTask[]): RouteTask[] {
  return [...tasks].sort((a, b) => a.order - b.order || (a.id < b.id ? -1 : 1));
}

/** What a way costs where it lies now; a crossing is shared by the two that cross. */
export function priceOf(field: Field, task: RouteTask, way: Way): number {
  const [from, to] = [itemAt(task.from, way.from), itemAt(task.to, way.to)];
  let sum = from.cost + to.cost + prices.step * (way.cells.length - 1);
  let heading = from.heading % 2;
  for (const [before, cell] of pairwise(way.cells)) {
    const next = Math.abs(cell - before) === 1 ? 1 : 0;
    if (next !== heading) sum += prices.bend;
    heading = next;
  }
  if (to.heading % 2 !== heading) sum += prices.bend;
  for (const cell of way.cells) sum += field.surcharge[cell] ?? 0;
  return sum + extraOf(field, way);
}

/** What a way costs for meeting others: half of each crossing, and clashes. Ways without any cannot get cheaper by much. */
export function extraOf(field: Field, way: Way | undefined): number {
  if (!way) return Infinity;
  let extra = 0;
  eachStand(field, way, (cell, isLevel, isUpright) => {
    const level = field.level[cell] ?? 0;
    const upright = field.upright[cell] ?? 0;
    if ((isLevel && level > 1) || (isUpright && upright > 1)) extra += softOverlap;
    else if (isLevel !== isUpright && (isLevel ? upright : level) > 0) extra += prices.crossing / 2;
  });
  return extra;
}

/** Counts a way in or out of the field. */
export function mark(field: Field, way: Way, by: 1 | -1): void {
  eachStand(field, way, (cell, isLevel, isUpright) => {
    if (isLevel) field.level[cell] = (field.level[cell] ?? 0) + by;
    if (isUpright) field.upright[cell] = (field.upright[cell] ?? 0) + by;
  });
}

/** True where a way shares a stretch or a bend with another, or is missing. */
export function clashes(field: Field, way: Way | undefined): boolean {
  return way === undefined || clashCells(field, way).length > 0;
}

function clashCells(field: Field, way: Way | undefined): number[] {
  const found: number[] = [];
  if (!way) return found;
  eachStand(field, way, (cell, isLevel, isUpright) => {
    if ((isLevel && (field.level[cell] ?? 0) > 1) || (isUpright && (field.upright[cell] ?? 0) > 1)) found.push(cell);
  });
  return found;
}

/** Calls back for each grid point of a way with the directions it takes there: both at bends and ends. */
function eachStand(field: Field, way: Way, visit: (cell: number, isLevel: boolean, isUpright: boolean) => void): void {
  const { cells } = way;
  cells.forEach((cell, index) => {
    const before = cells[index - 1];
    const after = cells[index + 1];
    if (before === undefined || after === undefined) return visit(cell, true, true);
    const isLevelIn = Math.abs(cell - before) === 1;
    const isLevelOut = Math.abs(after - cell) === 1;
    visit(cell, isLevelIn || isLevelOut, !isLevelIn || !isLevelOut);
  });
}
