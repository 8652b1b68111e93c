/** All wires' ways together: each takes the cheapest way beside the others, and the dear ones are taken up and laid again. */
import { createSearch, prices, type Field, type Gate, type Way } from './search.js';

export interface RouteTask {
  readonly id: string;
  readonly from: readonly Gate[];
  readonly to: readonly Gate[];
  /** Lower is laid earlier. */
  readonly order: number;
}

export interface Routing {
  readonly ways: ReadonlyMap<string, Way>;
  /** Wires that could not be laid, or not without sharing a stretch with another. */
  readonly crowded: readonly string[];
}

/** Rounds of taking up and laying again; most drawings settle in two or three. */
const rounds = 6;
const softOverlap = 240;
/** Meeting nobody: what a wire would cost if it were alone. Beside others it can only be dearer. */
const alongside = { overlap: 0, crossing: 0 };

/** Lays every task; the field's counts are left as the ways take them. */
export function routeAll(field: Field, tasks: readonly RouteTask[]): Routing {
  const search = createSearch(field);
  const ways = new Map<string, Way>();
  const alone = new Map<string, number>();
  const sorted = [...tasks].sort((a, b) => a.order - b.order || (a.id < b.id ? -1 : 1));
  const lay = (task: RouteTask, overlap: number): void => {
    const before = ways.get(task.id);
    if (before) mark(field, before, -1);
    const way = search.find(task.from, task.to, { overlap, crossing: prices.crossing });
    if (way) {
      mark(field, way, 1);
      ways.set(task.id, way);
    } else ways.delete(task.id);
  };

  for (const task of sorted) {
    const way = search.find(task.from, task.to, { overlap: softOverlap, crossing: prices.crossing });
    if (!way) continue;
    alone.set(task.id, search.find(task.from, task.to, alongside)?.cost ?? 0);
    mark(field, way, 1);
    ways.set(task.id, way);
  }
  let overlap = softOverlap;
  for (let round = 0; round < rounds; round++) {
    let isChanged = false;
    const bySlack = sorted
      .map((task) => ({ task, slack: (ways.get(task.id)?.cost ?? Infinity) - (alone.get(task.id) ?? 0) }))
      .filter(({ task, slack }) => slack > 0 || clashes(field, ways.get(task.id)))
      .sort((a, b) => b.slack - a.slack || (a.task.id < b.task.id ? -1 : 1));
    for (const { task } of bySlack) {
      const before = ways.get(task.id)?.cells.join();
      for (const cell of clashCells(field, ways.get(task.id))) field.toll[cell] = field.toll[cell]! + 16;
      lay(task, overlap);
      isChanged ||= ways.get(task.id)?.cells.join() !== before;
    }
    overlap = Math.round(overlap * 1.6);
    if (!isChanged) break;
  }
  const crowded = sorted.filter((task) => !ways.has(task.id) || clashes(field, ways.get(task.id))).map((task) => task.id);
  return { ways, crowded };
}

/** Counts a way in or out of the field. */
export function mark(field: Field, way: Way, by: 1 | -1): void {
  eachStand(field, way, (cell, isLevel, isUpright) => {
    if (isLevel) field.level[cell] = field.level[cell]! + by;
    if (isUpright) field.upright[cell] = field.upright[cell]! + by;
  });
}

function clashes(field: Field, way: Way | undefined): boolean {
  return clashCells(field, way).length > 0;
}

function clashCells(field: Field, way: Way | undefined): number[] {
  const found: number[] = [];
  if (!way) return found;
  eachStand(field, way, (cell, isLevel, isUpright) => {
    if ((isLevel && field.level[cell]! > 1) || (isUpright && field.upright[cell]! > 1)) found.push(cell);
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
