/** How laid wires are counted on the field: by points and axes, slantwise by squares, and alone at their ends. */
import { pairwise } from '../../collections.js';
import { createCompass, type Field, type Gate, type Route } from './grid-field.js';

interface Marked {
  readonly from: readonly Gate[];
  readonly to: readonly Gate[];
  /** Wires of one bundle have the same number. */
  readonly bundle?: number;
}

/** Counts a wire in or out of the field, with its joints. */
export function markTask(field: Field, { from, to, bundle }: Marked, route: Route, by: 1 | -1): void {
  mark(field, route, by, bundle);
  for (const tip of [from[route.from]?.tip, to[route.to]?.tip]) {
    if (tip !== undefined) markAll(field.wires, tip, by);
  }
}

/** Counts a route in or out of the field, and opens the lanes beside it to its bundle. */
export function mark(field: Field, route: Route, by: 1 | -1, bundle?: number): void {
  const { squares, lanes, columns } = field;
  forEachPoint(field, route, (cell, one, other) => {
    markPoint(field, cell, one, other, by);
    if (bundle === undefined || one !== other || one < 0) return;
    for (const beside of lanesBeside(columns, one)) lanes[4 * (cell + beside) + one] = bundle;
  });
  forEachSquare(field, route, (square) => void (squares[square] = (squares[square] ?? 0) + by));
}

/** Counts a wire in or out of a point, by the axes as `forEachPoint` gives them. */
export function markPoint({ wires, turns }: Field, cell: number, one: number, other: number, by: 1 | -1): void {
  if (other < 0) return markAll(wires, cell, by);
  wires[4 * cell + one] = (wires[4 * cell + one] ?? 0) + by;
  if (other === one) return;
  wires[4 * cell + other] = (wires[4 * cell + other] ?? 0) + by;
  turns[cell] = (turns[cell] ?? 0) + by;
}

/** Takes a point for one wire alone. */
export function markAll(wires: Uint8Array, cell: number, by: 1 | -1): void {
  for (let lane = 4 * cell; lane < 4 * cell + 4; lane++) wires[lane] = (wires[lane] ?? 0) + by;
}

/** From a point to those of the neighbouring lines of an axis. */
function lanesBeside(columns: number, axis: number): readonly number[] {
  if (axis === 0) return [-1, 1];
  if (axis === 2) return [-columns, columns];
  return [-1, 1, -columns, columns];
}

/** Calls back for each grid point of a route with the axes by which it comes and goes; its two ends, which are its own, with −1. */
export function forEachPoint(
  { columns }: Field,
  { cells }: Route,
  visit: (cell: number, one: number, other: number, index: number) => void,
): void {
  cells.forEach((cell, index) => {
    const before = cells[index - 1];
    const after = cells[index + 1];
    if (before !== undefined && after !== undefined) {
      visit(cell, headingOf(columns, cell - before) & 3, headingOf(columns, after - cell) & 3, index);
    } else {
      visit(cell, -1, -1, index);
    }
  });
}

/** Calls back for each square that a route passes slantwise. */
function forEachSquare({ columns }: Field, { cells }: Route, visit: (square: number) => void): void {
  const { square } = createCompass(columns);
  for (const [before, cell] of pairwise(cells)) {
    const heading = headingOf(columns, cell - before);
    if (heading % 2 === 1) visit(2 * (before + (square[heading] ?? 0)) + ((heading & 3) === 1 ? 1 : 0));
  }
}

/** The heading of a step between neighbours. */
function headingOf(columns: number, step: number): number {
  if (step === 1) return 2;
  if (step === -1) return 6;
  if (step < 0) return step === -columns ? 0 : step === 1 - columns ? 1 : 7;
  return step === columns ? 4 : step === columns + 1 ? 3 : 5;
}
