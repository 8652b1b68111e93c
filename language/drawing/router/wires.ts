/** From placed symbols to wires with their bends: what is in the way, where each may begin and end, and the ways they take. */
import type { Diagram, DiagramRun } from '../diagram.js';
import { type Box, grid, grow, joinBoxes, type Point, snapDown, snapUp } from '../geometry.js';
import type { Heading } from '../geometry.js';
import type { Pad } from '../symbol.js';
import { placedPads, waysBox, type PlacedSymbol } from '../arrange/placed.js';
import { routeAll, mark, type RouteTask } from './route.js';
import { createSearch, prices, type Field, type Gate, type Way } from './search.js';

export interface RoutedWire {
  readonly run: DiagramRun;
  /** From landing to landing, all bends, no point on a straight stretch. */
  readonly points: readonly Point[];
}

export interface RoutedWires {
  readonly wires: readonly RoutedWire[];
  /** Wires that found no way of their own. */
  readonly crowded: readonly string[];
}

export interface Surroundings {
  /** Outlines that a wire may cross but should not follow. */
  readonly outlines: readonly Box[];
  /** Labels of groups, in the way like everything else. */
  readonly labels: readonly Box[];
  /** Where a wall may be crossed at no cost. */
  readonly openings: readonly Box[];
}

/** Free grid around the outermost part. */
const margin = 8;
/** Half the width of a wire with its edge. */
const wireReach = 2.2;
/** In the prices of the search. */
const tolls = { access: 12, outline: 16, near: 1 } as const;

export function routeWires(diagram: Diagram, placed: readonly PlacedSymbol[], around: Surroundings): RoutedWires {
  const pads = new Map<string, Pad>(placed.flatMap((symbol) => placedPads(symbol).map((pad) => [pad.lug, pad] as const)));
  const grid = createGrid(placed, around);
  const { field } = grid;
  const runs = diagram.runs.filter((run) => run.kind !== 'screen' && pads.has(run.from) && pads.has(run.to));
  const used = new Set(runs.flatMap((run) => [run.from, run.to]));
  for (const [lug, pad] of pads) {
    if (!used.has(lug) || pad.look === 'spot') continue;
    for (const access of pad.accesses) field.toll[grid.cellAt(access)] = field.toll[grid.cellAt(access)]! + tolls.access;
  }
  const gates = (lug: string): Gate[] =>
    pads
      .get(lug)!
      .accesses.map((access) => ({
        cell: grid.cellAt(access),
        heading: access.heading,
        cost: access.cost * prices.step - (pads.get(lug)!.look === 'spot' ? 0 : tolls.access),
      }));
  const tasks = runs.map((run): RouteTask => ({
    id: run.id,
    from: gates(run.from),
    to: gates(run.to),
    order: orderOf(run, pads),
  }));
  const { ways, crowded } = routeAll(field, tasks);

  const wires = runs.flatMap((run): RoutedWire[] => {
    const way = ways.get(run.id);
    const [a, b] = [pads.get(run.from)!, pads.get(run.to)!];
    // A wire without a way is still a wire: a straight line from lug to lug is better than none.
    if (!way)
      return [
        {
          run,
          points: [
            { x: a.x, y: a.y },
            { x: b.x, y: b.y },
          ],
        },
      ];
    return [
      { run, points: bendsOf([a.accesses[way.from]!.landing, ...way.cells.map(grid.pointAt), b.accesses[way.to]!.landing]) },
    ];
  });
  return { wires: [...wires, ...tieScreens(diagram, grid, pads, ways)], crowded };
}

/** A screen's tie leaves its wire sidewise at any straight point; laid last, when that wire lies for good. */
function tieScreens(diagram: Diagram, grid: Grid, pads: ReadonlyMap<string, Pad>, ways: ReadonlyMap<string, Way>): RoutedWire[] {
  const { field } = grid;
  const search = createSearch(field);
  return diagram.runs.flatMap((run): RoutedWire[] => {
    const way = ways.get(run.from);
    const pad = pads.get(run.to);
    if (run.kind !== 'screen' || !way || !pad) return [];
    const starts: (Gate & { readonly landing: Point })[] = [];
    way.cells.slice(1, -1).forEach((cell, index) => {
      const [before, after] = [way.cells[index]!, way.cells[index + 2]!];
      const isFree = field.level[cell]! + field.upright[cell]! === 1;
      if (after - cell !== cell - before || !isFree) return;
      const isLevel = Math.abs(after - cell) === 1;
      for (const heading of (isLevel ? [0, 2] : [1, 3]) as Heading[]) {
        const next = grid.neighbour(cell, heading);
        if (next !== undefined) starts.push({ cell: next, heading, cost: 0, landing: grid.pointAt(cell) });
      }
    });
    const to = pad.accesses.map((access) => ({
      cell: grid.cellAt(access),
      heading: access.heading,
      cost: access.cost * prices.step,
    }));
    const found = search.find(starts, to, { overlap: 800, crossing: prices.crossing });
    if (!found) return [];
    mark(field, found, 1);
    return [
      { run, points: bendsOf([starts[found.from]!.landing, ...found.cells.map(grid.pointAt), pad.accesses[found.to]!.landing]) },
    ];
  });
}

interface Grid {
  readonly field: Field;
  cellAt(point: Point): number;
  pointAt(this: void, cell: number): Point;
  neighbour(cell: number, heading: Heading): number | undefined;
}

function createGrid(placed: readonly PlacedSymbol[], around: Surroundings): Grid {
  const bounds = joinBoxes([waysBox(placed), ...around.outlines]);
  const left = snapDown(bounds.x) - margin * grid;
  const top = snapDown(bounds.y) - margin * grid;
  const columns = (snapUp(bounds.x + bounds.width) - left) / grid + margin + 1;
  const rows = (snapUp(bounds.y + bounds.height) - top) / grid + margin + 1;
  const field: Field = {
    columns,
    rows,
    blocked: new Uint8Array(columns * rows),
    toll: new Uint16Array(columns * rows),
    level: new Uint8Array(columns * rows),
    upright: new Uint8Array(columns * rows),
  };
  const eachCell = (box: Box, visit: (cell: number) => void): void => {
    const [firstColumn, lastColumn] = [Math.ceil((box.x - left) / grid), Math.floor((box.x + box.width - left) / grid)];
    const [firstRow, lastRow] = [Math.ceil((box.y - top) / grid), Math.floor((box.y + box.height - top) / grid)];
    for (let row = Math.max(0, firstRow); row <= Math.min(rows - 1, lastRow); row++) {
      for (let column = Math.max(0, firstColumn); column <= Math.min(columns - 1, lastColumn); column++)
        visit(row * columns + column);
    }
  };
  const block = (box: Box): void => {
    eachCell(grow(box, wireReach), (cell) => void (field.blocked[cell] = 1));
    eachCell(grow(box, grid * 0.9), (cell) => void (field.toll[cell] = Math.max(field.toll[cell]!, tolls.near)));
  };
  for (const { x, y, symbol } of placed) for (const box of symbol.keepOut) block({ ...box, x: box.x + x, y: box.y + y });
  for (const label of around.labels) block(label);
  for (const box of around.outlines) {
    const toll = (cell: number): void => void (field.toll[cell] = field.toll[cell]! + tolls.outline);
    const open = around.openings;
    const wall = (side: Box): void =>
      eachCell(side, (cell) => {
        const { x, y } = pointAt(cell);
        if (
          !open.some(
            (opening) => x >= opening.x && x <= opening.x + opening.width && y >= opening.y && y <= opening.y + opening.height,
          )
        )
          toll(cell);
      });
    wall({ x: box.x - 6, y: box.y, width: 12, height: box.height });
    wall({ x: box.x + box.width - 6, y: box.y, width: 12, height: box.height });
    wall({ x: box.x, y: box.y - 6, width: box.width, height: 12 });
    wall({ x: box.x, y: box.y + box.height - 6, width: box.width, height: 12 });
  }
  function pointAt(cell: number): Point {
    return { x: left + (cell % columns) * grid, y: top + Math.floor(cell / columns) * grid };
  }
  return {
    field,
    pointAt,
    cellAt: ({ x, y }) => Math.round((y - top) / grid) * columns + Math.round((x - left) / grid),
    neighbour(cell, heading) {
      const column = (cell % columns) + (heading === 1 ? 1 : heading === 3 ? -1 : 0);
      const row = Math.floor(cell / columns) + (heading === 2 ? 1 : heading === 0 ? -1 : 0);
      return column < 0 || row < 0 || column >= columns || row >= rows ? undefined : row * columns + column;
    },
  };
}

/** Leads and direct joints first, then short before long, signal before ground: what has least choice is laid first. */
function orderOf(run: DiagramRun, pads: ReadonlyMap<string, Pad>): number {
  const [a, b] = [pads.get(run.from)!, pads.get(run.to)!];
  const distance = Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
  return distance + (run.kind === 'wire' ? (run.ground ? 2000 : 1000) : 0);
}

/** Only the ends and the bends. */
function bendsOf(points: readonly Point[]): Point[] {
  return points.filter((point, index) => {
    const [before, after] = [points[index - 1], points[index + 1]];
    if (!before || !after) return true;
    return (point.x - before.x) * (after.y - point.y) !== (point.y - before.y) * (after.x - point.x);
  });
}
