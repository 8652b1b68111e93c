/** Pots from behind: a round case with its lugs as tabs on one side, what is soldered to the case all round its rim. */
import { itemAt } from '../../collections.js';
import type { DiagramLug, DiagramPart } from '../diagram/diagram.js';
import { east, grid, north, snap, snapUp, south, west, wireReach } from '../geometry.js';
import { addMiniSwitch } from './mini.js';
import {
  type Access,
  captionLines,
  captionWidth,
  createSymbolBuilder,
  lugNameWidth,
  padRadius,
  type Symbol,
  type SymbolBuilder,
  tabClearance,
} from './symbol.js';

/** A case of 24 mm. */
const radius = 38;
const lugDistance = 6 * grid;
/** Solder sits just inside the rim. */
const reach = radius - 4;
const tabWidth = 14;

/** One case with three lugs. */
export function potSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const [row = []] = part.rows;
  const shell = shellOf(part);
  addCase(builder);
  addTabs(builder, part, row);
  builder.caption(part, captionPlace(part));
  if (shell) addRim(builder, shell, [-2, -1, 0, 1, 2]);
  return builder.finish();
}

/** Two gangs behind each other: the lugs of the nearer one, at the end of the case, stand above those of the other. */
export function dualPotSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const [front = [], rear = []] = part.rows;
  const shell = shellOf(part);
  addCase(builder);
  addTabs(builder, part, front);
  const pitch = tabPitch(part, rear);
  placesOf(part, rear, pitch).forEach(({ lug, x }) => {
    builder.leaf({ x, y: 26 }, { x, y: -2 * grid }, tabWidth);
    builder.onTab(lug.name, x, 12);
    builder.lug(lug, x, -2 * grid, north);
  });
  builder.caption(part, 'above');
  if (shell) addRim(builder, shell, [-1, 0, 1, 2]);
  return builder.finish();
}

/** A pot with a switch on its back, in one outline: the switch's block on the case, its contacts named. */
export function switchPotSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const row = part.rows.at(-1) ?? [];
  const switchRows = part.rows.slice(0, -1).filter((lugs) => lugs.some((lug) => lug !== null));
  const shell = shellOf(part);
  const length = (Math.max(1, switchRows.length) - 1) * 3 * grid;
  const top = -2 * grid - length;
  builder.box('metal', { x: 0, y: (top - 2 * grid) / 2, width: 2 * radius, height: 2 * grid - top, radius: 10 });
  builder.cover(0, (top - 2 * grid) / 2, 2 * radius, 2 * grid - top);
  addCase(builder);
  addTabs(builder, part, row);
  addMiniSwitch(builder, part, switchRows, { x: 0, y: top });
  builder.caption(part, 'above');
  if (shell) addRim(builder, shell, [0, 1, 2]);
  return builder.finish();
}

function addCase(builder: SymbolBuilder): void {
  builder.circle('metal', 0, 0, radius);
  builder.cover(0, 0, 2 * radius, 2 * radius);
}

function addTabs(builder: SymbolBuilder, part: DiagramPart, row: readonly (number | null)[]): void {
  for (const { lug, x } of placesOf(part, row, tabPitch(part, row))) {
    if (part.bent.includes(lug.id)) addBent(builder, lug, x);
    else {
      const start = Math.sqrt(Math.max(0, radius ** 2 - x ** 2)) - 6;
      builder.leaf({ x, y: start }, { x, y: lugDistance }, tabWidth);
      builder.onTab(lug.name, x, lugDistance - 15);
      builder.lug(lug, x, lugDistance, south);
    }
  }
}

/** Bent up onto the case and soldered there: what else comes to the lug lands in the same solder. */
function addBent(builder: SymbolBuilder, lug: DiagramLug, x: number): void {
  const y = 2 * grid;
  const side = x < 0 ? west : east;
  builder.leaf({ x, y: lugDistance - 8 }, { x, y: y - 8 }, tabWidth);
  builder.circle('bead', x, y, padRadius);
  builder.around(lug.name, x, lugDistance - 19);
  const beside = { x: x + Math.sign(x) * 2 * grid, y };
  builder.pad(
    lug.id,
    { x, y },
    [
      { ...beside, heading: side, landing: { x, y }, cost: 0 },
      { x, y: y - grid, heading: north, landing: { x, y }, cost: 1 },
    ],
    'spot',
  );
}

interface TabPlace {
  readonly lug: DiagramLug;
  readonly x: number;
}

function placesOf(part: DiagramPart, row: readonly (number | null)[], pitch: number): TabPlace[] {
  return row.flatMap((index, place) => {
    const x = snap((place - (row.length - 1) / 2) * pitch);
    return index === null ? [] : [{ lug: itemAt(part.lugs, index), x }];
  });
}

/** Two grid steps, more where names are so long that no wire would pass between two of them. */
function tabPitch(part: DiagramPart, row: readonly (number | null)[]): number {
  const widest = Math.max(0, ...row.map((index) => (index === null ? 0 : lugNameWidth(itemAt(part.lugs, index).name))));
  return snapUp(Math.max(2 * grid, widest + 2 * (tabClearance + wireReach)));
}

/** Where wires may be soldered to the case: at each grid line round it, but where a text or a tab is in the way. `levels` are the lines that meet its sides. */
function addRim(builder: SymbolBuilder, shell: DiagramLug, levels: readonly number[]): void {
  const accesses: Access[] = [];
  for (const level of levels) {
    const y = level * grid;
    const x = Math.sqrt(reach ** 2 - y ** 2);
    const outside = snapUp(x + 5);
    const cost = Math.abs(level) * 0.5;
    accesses.push({ x: -outside, y, heading: west, landing: { x: -x, y }, cost });
    accesses.push({ x: outside, y, heading: east, landing: { x, y }, cost });
  }
  if (levels.includes(-1)) {
    for (const step of [-1, 0, 1, ...(levels.includes(-2) ? [-2, 2] : [])]) {
      const x = step * grid;
      const y = -Math.sqrt(reach ** 2 - x ** 2);
      accesses.push({ x, y: -snapUp(5 - y), heading: north, landing: { x, y }, cost: Math.abs(step) * 0.5 });
    }
  }
  builder.pad(shell.id, { x: 0, y: 0 }, accesses.filter(builder.isOpen), 'spot', radius);
}

function shellOf(part: DiagramPart): DiagramLug | undefined {
  const inRows = new Set(part.rows.flat());
  return part.lugs.find((_, index) => !inRows.has(index));
}

/** On the case where it fits, else above the part. */
function captionPlace(part: DiagramPart): Parameters<SymbolBuilder['caption']>[1] {
  const width = 2 * (radius - 9);
  const lines = captionLines(part, width);
  if (captionWidth(part, width) > width || lines.length > 3) return 'above';
  return { at: { x: 0, y: part.bent.length > 0 ? -6 : -4 }, width };
}
