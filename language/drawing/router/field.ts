/** The grid over a drawing: what is in the way of wires, and what they had better keep off. */
import { pairwise } from '../../collections.js';
import {
  type Box,
  grid,
  grow,
  type Heading,
  meets,
  moved,
  type Point,
  snapDown,
  snapUp,
  stepOf,
  wireReach,
} from '../geometry.js';
import type { PlacedSymbol } from '../placed.js';
import type { Shape } from '../shape.js';
import { shapeBox } from '../symbols/symbol.js';
import type { Field, Route } from './grid-field.js';

/** Maps between the drawing and the points of its grid. */
export interface Frame {
  readonly columns: number;
  readonly rows: number;
  /** Where parts may stand and still have room for wires around them. */
  readonly room: Box;
  cellAt(this: void, point: Point): number;
  pointAt(this: void, cell: number): Point;
  neighbour(this: void, cell: number, heading: Heading): number | undefined;
}

export interface Surroundings {
  /** Outlines that a wire may cross but should not follow; wood is crossed only where there is no channel. */
  readonly walls: readonly { readonly box: Box; readonly isWall: boolean }[];
  /** Labels of groups, in the way like everything else. */
  readonly labels: readonly Box[];
  /** Where a wall may be crossed at no cost. */
  readonly openings: readonly Box[];
  /** Wires that lie in cavities and channels from end to end, by id, with their channels. */
  readonly bound: ReadonlyMap<string, readonly string[]>;
}

/** Free grid around the outermost part. */
const margin = 4;
/** From a letter to the middle of a run of solder: half its width, and room for its bends. */
const solderReach = 8;
/** In the prices of the search: to pass where another wire wants to end, to cross an outline, to go through wood, to run close along a lug or a letter, to pass over a body, and over one so small that a wire hides it. */
export const surcharges = { access: 24, outline: 24, wall: 100, near: 3, body: 7, small: 40 } as const;

/** A frame that holds a box with room around it. */
export function createFrame(bounds: Box): Frame {
  const left = snapDown(bounds.x) - margin * grid;
  const top = snapDown(bounds.y) - margin * grid;
  const columns = (snapUp(bounds.x + bounds.width) - left) / grid + margin + 1;
  const rows = (snapUp(bounds.y + bounds.height) - top) / grid + margin + 1;
  return {
    columns,
    rows,
    room: grow({ x: left, y: top, width: (columns - 1) * grid, height: (rows - 1) * grid }, -4 * grid),
    pointAt: (cell) => ({ x: left + (cell % columns) * grid, y: top + Math.floor(cell / columns) * grid }),
    cellAt: ({ x, y }) => Math.round((y - top) / grid) * columns + Math.round((x - left) / grid),
    neighbour(cell, heading) {
      const step = stepOf(heading);
      const column = (cell % columns) + step.x;
      const row = Math.floor(cell / columns) + step.y;
      return column < 0 || row < 0 || column >= columns || row >= rows ? undefined : row * columns + column;
    },
  };
}

/** Routes on the points of another frame; those that leave it are left out. */
export function rebased(routes: ReadonlyMap<string, Route>, from: Frame, to: Frame): Map<string, Route> {
  const moved = [...routes].map(([id, route]): [string, Route] => [
    id,
    { ...route, cells: route.cells.map((cell) => to.cellAt(from.pointAt(cell))) },
  ]);
  return new Map(moved.filter(([, { cells }]) => pairwise(cells).every(([before, cell]) => isBeside(to, before, cell))));
}

function isBeside({ columns }: Frame, a: number, b: number): boolean {
  const rows = Math.abs(Math.floor(a / columns) - Math.floor(b / columns));
  return a !== b && rows <= 1 && Math.abs((a % columns) - (b % columns)) <= 1;
}

/** The field of a drawing before any wire is laid. */
export function createField(frame: Frame, around: Surroundings, placed: readonly PlacedSymbol[]): Field {
  const { columns, rows } = frame;
  const count = columns * rows;
  const field: Field = {
    columns,
    rows,
    blocked: borderOf(columns, rows),
    barred: new Uint8Array(2 * count),
    surcharge: new Uint16Array(count),
    ...emptyLanes(count),
    wood: woodOf(frame, around),
    narrow: [],
  };
  for (const box of around.labels) block(field, frame, box);
  for (const symbol of placed) {
    for (const box of symbol.symbol.keepOut) block(field, frame, moved(box, symbol));
    for (const box of symbol.symbol.covers) {
      const at = moved(box, symbol);
      if (isSmall(box)) eachCell(frame, grow(at, grid / 2), (cell) => charge(field, cell, surcharges.small));
      else eachCell(frame, at, (cell) => charge(field, cell, surcharges.body));
    }
  }
  for (const { symbol, x, y } of placed) {
    // A wire across a lug's metal would look soldered to it.
    for (const shape of symbol.shapes.filter(isLeaf))
      eachCell(frame, grow(moved(shapeBox(shape), { x, y }), wireReach), (cell) => charge(field, cell, surcharges.small));
  }
  addWalls(frame, around, field.surcharge);
  return { ...field, narrow: narrowOf(field, frame, placed) };
}

function narrowOf({ blocked }: Field, frame: Frame, placed: readonly PlacedSymbol[]): number[] {
  const cells: number[] = [];
  for (const symbol of placed)
    for (const label of symbol.symbol.labels)
      eachCell(frame, grow<Box>(moved(label, symbol), solderReach), (cell) => void (blocked[cell] === 0 && cells.push(cell)));
  return cells;
}

/** Where no wire lies yet. */
export function emptyLanes(count: number): Pick<Field, 'wires' | 'turns' | 'squares' | 'lanes'> {
  return {
    wires: new Uint8Array(4 * count),
    turns: new Uint8Array(count),
    squares: new Uint8Array(2 * count),
    lanes: new Uint16Array(4 * count),
  };
}

/** The outermost points blocked, so that no step leads off the grid. */
export function borderOf(columns: number, rows: number): Uint8Array {
  const blocked = new Uint8Array(columns * rows);
  blocked.fill(1, 0, columns);
  blocked.fill(1, (rows - 1) * columns);
  for (let row = 0; row < rows; row++) blocked[row * columns] = blocked[(row + 1) * columns - 1] = 1;
  return blocked;
}

function isLeaf({ kind, role }: Shape): boolean {
  return kind === 'path' && role === 'leaf';
}

/** So narrow a body is hidden by a wire across it. */
export function isSmall({ width, height }: Box): boolean {
  return Math.min(width, height) < 3 * grid;
}

/** Keeps wires off a box, and off slants that would cut its corner. */
function block(field: Field, frame: Frame, box: Box): void {
  const kept = grow(box, wireReach);
  eachCell(frame, kept, (cell) => void (field.blocked[cell] = 1));
  eachCell(frame, grow(box, grid * 0.9), (cell) => charge(field, cell, surcharges.near));
  const squares = { x: kept.x - grid, y: kept.y - grid, width: kept.width + grid, height: kept.height + grid };
  eachCell(frame, squares, (cell) => {
    const { x, y } = frame.pointAt(cell);
    const [right, bottom] = [x + grid, y + grid];
    if (meets({ x, y }, { x: right, y: bottom }, kept)) field.barred[2 * cell] = 1;
    if (meets({ x, y: bottom }, { x: right, y }, kept)) field.barred[2 * cell + 1] = 1;
  });
}

/** The dearest of what lies at a point counts. */
function charge({ surcharge }: Field, cell: number, price: number): void {
  surcharge[cell] = Math.max(surcharge[cell] ?? 0, price);
}

/** All that lies in no cavity and in no channel. */
function woodOf(frame: Frame, around: Surroundings): Uint8Array {
  const wood = new Uint8Array(frame.columns * frame.rows).fill(1);
  const hollow = [...around.walls.filter(({ isWall }) => isWall).map(({ box }) => box), ...around.openings];
  for (const box of hollow) eachCell(frame, box, (cell) => void (wood[cell] = 0));
  return wood;
}

function addWalls(frame: Frame, around: Surroundings, surcharge: Uint16Array): void {
  const isOpen = (cell: number): boolean => {
    const { x, y } = frame.pointAt(cell);
    return around.openings.some((box) => x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height);
  };
  const half = grid / 2;
  for (const { box, isWall } of around.walls) {
    const { x, y, width, height } = box;
    const price = isWall ? surcharges.wall : surcharges.outline;
    const sides = [
      { x: x - half, y, width: grid, height },
      { x: x + width - half, y, width: grid, height },
      { x, y: y - half, width, height: grid },
      { x, y: y + height - half, width, height: grid },
    ];
    for (const side of sides)
      eachCell(frame, side, (cell) => void (isOpen(cell) || (surcharge[cell] = (surcharge[cell] ?? 0) + price)));
  }
}

function eachCell({ columns, rows, pointAt }: Frame, box: Box, visit: (cell: number) => void): void {
  const origin = pointAt(0);
  const firstColumn = Math.max(0, Math.ceil((box.x - origin.x) / grid));
  const lastColumn = Math.min(columns - 1, Math.floor((box.x + box.width - origin.x) / grid));
  const firstRow = Math.max(0, Math.ceil((box.y - origin.y) / grid));
  const lastRow = Math.min(rows - 1, Math.floor((box.y + box.height - origin.y) / grid));
  for (let row = firstRow; row <= lastRow; row++) {
    for (let column = firstColumn; column <= lastColumn; column++) visit(row * columns + column);
  }
}
