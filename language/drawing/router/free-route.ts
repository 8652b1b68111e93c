/** Routes over a finished scene: lines that are laid on a drawing without moving anything, clear of its lettering. */
import { itemAt, pairwise } from '../../collections.js';
import { type Box, boxAround, grow, headings, meets, type Point } from '../geometry.js';
import { borderOf, emptyLanes } from './field.js';
import { type Scene, type SceneLug, sceneLabels } from '../scene.js';
import { labelBox, type Role } from '../shape.js';
import { shapeBox } from '../symbols/symbol.js';
import type { Field, Gate, Route } from './grid-field.js';
import { createSearch } from './search.js';

export interface FreeRoutes {
  /**
   * From lug to lug, by ids; a piece of metal is reached at its edge. Undefined where a lug is not drawn or lettering closes it in.
   * Each route keeps off those that were asked for before.
   */
  between(from: string, to: string): readonly Point[] | undefined;
}

/** Half the pitch of wires, so that a route finds room between two of them. */
const pitch = 6;
/** Paper between a route and a letter or a lug. */
const clear = { letters: 3, lug: 3 } as const;
const prices = { overlap: 1000, crossing: 30, body: 15, outline: 20, beside: 3 } as const;
const bodies: ReadonlySet<Role> = new Set<Role>(['body', 'metal', 'wafer', 'film']);

export function createFreeRoutes(scene: Scene): FreeRoutes {
  const lugs = new Map(scene.parts.flatMap((part) => part.lugs.map((lug) => [lug.id, lug] as const)));
  const grid = createGrid(scene);
  const field = fieldOf(scene, grid);
  const metal = terminals(scene, lugs);
  const search = createSearch(grid.columns, grid.rows);
  const find = (from: SceneLug, to: SceneLug, isBlocked: boolean): Route | undefined => {
    const blocked = field.blocked.slice();
    for (const { lug, box } of isBlocked ? metal : [])
      if (lug !== from.id && lug !== to.id) grid.each(box, (cell) => (blocked[cell] = 1));
    return search.find({ ...field, blocked }, gatesOf(from, grid), gatesOf(to, grid), prices);
  };
  return {
    between(from, to) {
      const [a, b] = [lugs.get(from), lugs.get(to)];
      if (a === undefined || b === undefined) return undefined;
      const route = find(a, b, true) ?? find(a, b, false);
      if (route === undefined) return undefined;
      const cells = route.cells.map((cell) => grid.pointAt(cell));
      const points = corners([...(a.look === 'lug' ? [a] : []), ...cells, ...(b.look === 'lug' ? [b] : [])]);
      markWire(field, grid, points);
      return points;
    },
  };
}

interface Grid {
  readonly columns: number;
  readonly rows: number;
  pointAt(cell: number): Point;
  cellAt(point: Point): number;
  each(box: Box, visit: (cell: number) => void): void;
}

/** A grid on which the lugs lie, as large as the sheet. */
function createGrid({ parts, width, height }: Scene): Grid {
  const first = parts.flatMap((part) => part.lugs)[0] ?? { x: 0, y: 0 };
  const [left, top] = [first.x % pitch, first.y % pitch];
  const columns = Math.floor((width - left) / pitch) + 1;
  const rows = Math.floor((height - top) / pitch) + 1;
  const within = (value: number, most: number): number => Math.max(0, Math.min(most - 1, value));
  return {
    columns,
    rows,
    pointAt: (cell) => ({ x: left + (cell % columns) * pitch, y: top + Math.floor(cell / columns) * pitch }),
    cellAt: ({ x, y }) => within(Math.round((y - top) / pitch), rows) * columns + within(Math.round((x - left) / pitch), columns),
    each(box, visit) {
      const lastRow = Math.min(rows - 1, Math.floor((box.y + box.height - top) / pitch));
      const lastColumn = Math.min(columns - 1, Math.floor((box.x + box.width - left) / pitch));
      for (let row = Math.max(0, Math.ceil((box.y - top) / pitch)); row <= lastRow; row++)
        for (let column = Math.max(0, Math.ceil((box.x - left) / pitch)); column <= lastColumn; column++)
          visit(row * columns + column);
    },
  };
}

/** Letters, marks and the key are in the way; wires are crossed but not followed; parts had better be passed by. */
function fieldOf(scene: Scene, grid: Grid): Field {
  const size = grid.columns * grid.rows;
  const field: Field = {
    columns: grid.columns,
    rows: grid.rows,
    blocked: borderOf(grid.columns, grid.rows),
    barred: new Uint8Array(2 * size),
    surcharge: new Uint16Array(size),
    ...emptyLanes(size),
    wood: new Uint8Array(size),
    narrow: [],
  };
  const texts = [
    ...sceneLabels(scene).map(({ label }) => labelBox(label)),
    ...scene.marks.flatMap(({ shapes }) => shapes.map(shapeBox)),
    ...scene.samples.map(({ points }) => boxAround(points)),
  ];
  for (const box of texts) keepOff(field, grid, grow<Box>(box, clear.letters));
  const charge = (box: Box, price: number): void =>
    grid.each(box, (cell) => (field.surcharge[cell] = (field.surcharge[cell] ?? 0) + price));
  for (const { shapes } of scene.parts)
    for (const shape of shapes.filter(({ role }) => bodies.has(role))) {
      const box = shapeBox(shape);
      charge(grow(box, pitch / 2), prices.outline);
      charge(grow(box, -pitch / 2), prices.body - prices.outline);
    }
  for (const { points } of scene.wires) markWire(field, grid, points);
  return field;
}

/** Blocks a box, and the slants that would cut its corner. */
function keepOff({ blocked, barred }: Field, grid: Grid, kept: Box): void {
  grid.each(kept, (cell) => (blocked[cell] = 1));
  const squares = { x: kept.x - pitch, y: kept.y - pitch, width: kept.width + pitch, height: kept.height + pitch };
  grid.each(squares, (cell) => {
    const { x, y } = grid.pointAt(cell);
    if (meets({ x, y }, { x: x + pitch, y: y + pitch }, kept)) barred[2 * cell] = 1;
    if (meets({ x, y: y + pitch }, { x: x + pitch, y }, kept)) barred[2 * cell + 1] = 1;
  });
}

/** What is soldered or may be: lugs, and joints on pieces of metal. */
function terminals(
  { parts, joints }: Scene,
  lugs: ReadonlyMap<string, SceneLug>,
): readonly { readonly lug: string; readonly box: Box }[] {
  const around = ({ x, y }: Point, radius: number): Box => grow<Box>({ x, y, width: 0, height: 0 }, radius + clear.lug);
  return [
    ...parts.flatMap((part) =>
      part.lugs.filter(({ look }) => look === 'lug').map((lug) => ({ lug: lug.id, box: around(lug, lug.radius) })),
    ),
    ...joints.map((joint) => ({
      lug: lugs.get(joint.lug)?.look === 'lug' ? joint.lug : '',
      box: around(joint, joint.radius),
    })),
  ];
}

function gatesOf(lug: SceneLug, grid: Grid): readonly Gate[] {
  const cells: number[] = [];
  if (lug.look === 'lug') cells.push(grid.cellAt(lug));
  else
    grid.each(grow<Box>({ x: lug.x, y: lug.y, width: 0, height: 0 }, lug.radius), (cell) => {
      const { x, y } = grid.pointAt(cell);
      const distance = Math.hypot(x - lug.x, y - lug.y);
      if (distance > lug.radius - 11 && distance < lug.radius - 3) cells.push(cell);
    });
  return cells.flatMap((cell) => headings.map((heading) => ({ cell, heading, cost: 0 })));
}

/** Marks the points that a wire passes, each on the axis that is nearest to its own. */
function markWire(field: Field, grid: Grid, points: readonly Point[]): void {
  for (const [a, b] of pairwise(points)) {
    const eighths = Math.round((4 * Math.atan2(b.x - a.x, a.y - b.y)) / Math.PI);
    const passed = new Set<number>();
    const beside = new Set<number>();
    const steps = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / (pitch / 2)));
    for (let step = 0; step <= steps; step++) {
      const at = { x: a.x + ((b.x - a.x) * step) / steps, y: a.y + ((b.y - a.y) * step) / steps, width: 0, height: 0 };
      grid.each(grow(at, pitch / 2), (cell) => passed.add(cell));
      grid.each(grow(at, pitch), (cell) => beside.add(cell));
    }
    for (const cell of passed) {
      const lane = 4 * cell + (eighths & 3);
      field.wires[lane] = (field.wires[lane] ?? 0) + 1;
    }
    for (const cell of beside) field.surcharge[cell] = (field.surcharge[cell] ?? 0) + prices.beside;
  }
}

/** Without the points between two that lie on one line. */
function corners(points: readonly Point[]): readonly Point[] {
  return points.filter((point, index) => {
    if (index === 0 || index === points.length - 1) return true;
    const [before, after] = [itemAt(points, index - 1), itemAt(points, index + 1)];
    return (point.x - before.x) * (after.y - point.y) !== (point.y - before.y) * (after.x - point.x);
  });
}
