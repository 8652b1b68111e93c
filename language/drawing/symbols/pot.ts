/** Pots: a round case with its lugs on one side, seen from the solder side. */
import type { DiagramLug, DiagramPart } from '../diagram/diagram.js';
import { east, grid, type Heading, north, south, west } from '../geometry.js';
import { addLines } from './lines.js';
import { type Access, captionLines, captionWidth, createSymbolBuilder, type Symbol, type SymbolBuilder } from './symbol.js';

const pitch = 3 * grid;
const radius = 4.5 * grid;
const lugDistance = 7 * grid;

/** One case with three lugs. */
export function potSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const [row = []] = part.rows;
  const shell = shellOf(part);
  builder.circle('metal', 0, 0, radius);
  builder.cover(0, 0, 2 * radius, 2 * radius);
  addTabs(builder, part, row, 0);
  if (shell) {
    builder.pad(shell.id, { x: 0, y: 0 }, rim(part, 0, [west, east, north]), 'spot', radius);
    builder.around(shell.name, 0, -32);
  }
  builder.caption(part, captionPlace(part));
  return builder.finish();
}

/** Two tracks behind each other, drawn side by side in one case so that each lug is seen. */
export function dualPotSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const offset = 5 * grid;
  const shell = shellOf(part);
  builder.box('metal', { x: 0, y: 0, width: 2 * (offset + radius), height: 2 * radius, radius });
  builder.cover(0, 0, 2 * (offset + radius), 2 * radius);
  part.rows.forEach((row, index) => {
    const centre = index === 0 ? -offset : offset;
    builder.circle('detail', centre * 1.35, 0, 13);
    addTabs(builder, part, row, centre);
  });
  if (shell) {
    const between = [-grid, 0, grid].map((x): Access => ({
      x,
      y: 5 * grid,
      heading: south,
      landing: { x, y: radius - 7 },
      cost: Math.abs(x) / grid,
    }));
    const accesses = [...rim(part, -offset, [west, north]), ...rim(part, offset, [north, east]), ...between];
    builder.pad(shell.id, { x: 0, y: 0 }, accesses, 'spot', radius);
    builder.around(shell.name, 0, -36);
  }
  builder.caption(part, { at: { x: 0, y: 2 }, width: 2 * offset });
  return builder.finish();
}

/** A pot with a switch on its back: the switch's lugs stand above the round case. */
export function switchPotSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const row = part.rows.at(-1) ?? [];
  const switchRows = part.rows.slice(0, -1).filter((lugs) => lugs.some((lug) => lug !== null));
  const columns = Math.max(...switchRows.map((lugs) => lugs.length), 0);
  const lines = Array.from({ length: columns }, (_, column) => switchRows.map((lugs) => lugs[column] ?? null));
  const shell = shellOf(part);
  const top = -radius - 2 * grid - (switchRows.length - 1) * pitch;
  builder.circle('metal', 0, 0, radius);
  builder.cover(0, 0, 2 * radius, 2 * radius);
  addTabs(builder, part, row, 0);
  addLines(builder, part, lines, { x: 0, y: top, alongY: true });
  if (shell) {
    builder.pad(shell.id, { x: 0, y: 0 }, rim(part, 0, [west, east]), 'spot', radius);
    builder.around(shell.name, 0, -32);
  }
  builder.caption(part, captionPlace(part));
  return builder.finish();
}

function addTabs(builder: SymbolBuilder, part: DiagramPart, row: readonly (number | null)[], centre: number): void {
  row.forEach((index, place) => {
    const lug = index === null ? undefined : part.lugs[index];
    if (!lug) return;
    const x = centre + (place - (row.length - 1) / 2) * pitch;
    const start = Math.sqrt(Math.max(0, radius ** 2 - (x - centre) ** 2)) - 2;
    builder.box('tab', { x, y: (start + lugDistance) / 2, width: 15, height: lugDistance - start, radius: 3 });
    builder.around(lug.name, x, lugDistance - 20);
    builder.lug(lug, x, lugDistance, south);
  });
  // Between the tabs a wire would seem to end on the case.
  builder.cover(centre, (radius + lugDistance) / 2 - 4, (row.length - 1) * pitch, lugDistance - radius - 8);
}

/** Where wires may be soldered to the back of the case: from the sides, each spot of its own. */
function rim(part: DiagramPart, centre: number, sides: readonly Heading[]): Access[] {
  const accesses: Access[] = [];
  const reach = radius - 7;
  const outside = 5 * grid;
  // Two sides meet at a corner, where their spots would touch; those are for a case that takes more wires than it should.
  const widest = (shellOf(part)?.ends ?? 0) > 10 ? 3 : 2;
  for (const heading of sides) {
    for (let step = -widest; step <= widest; step++) {
      const along = step * grid;
      const depth = Math.sqrt(reach ** 2 - along ** 2);
      const cost = Math.abs(step) === 3 ? 12 : Math.abs(step) * 0.5;
      if (heading === north)
        accesses.push({ x: centre + along, y: -outside, heading, landing: { x: centre + along, y: -depth }, cost });
      else if (step <= 1) {
        const sign = heading === west ? -1 : 1;
        accesses.push({ x: centre + sign * outside, y: along, heading, landing: { x: centre + sign * depth, y: along }, cost });
      }
    }
  }
  return accesses;
}

function shellOf(part: DiagramPart): DiagramLug | undefined {
  const inRows = new Set(part.rows.flat());
  return part.lugs.find((_, index) => !inRows.has(index));
}

/** On the case where it fits, else above the part. */
function captionPlace(part: DiagramPart): Parameters<SymbolBuilder['caption']>[1] {
  const width = 2 * (radius - 15);
  const lines = captionLines(part, width);
  if (captionWidth(part, width) > width || lines.length > 4) return 'above';
  return { at: { x: 0, y: lines.length > 3 ? 6 : 2 }, width };
}
