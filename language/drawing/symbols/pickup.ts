/** Pickups from behind: a long upright bar with its poles, the eyelets of its leads side by side at the lower end. */
import type { DiagramLug, DiagramPart } from '../diagram/diagram.js';
import { east, grid, snapUp, south } from '../geometry.js';
import { createSymbolBuilder, lugNameWidth, type Symbol, type SymbolBuilder } from './symbol.js';

/** A cover of 84 × 19 mm with one row of poles, or of 70 × 37 mm with two, and a strip of 70 × 6 mm under a saddle; common practice. */
const sizes = {
  single: { height: 27 * grid, width: 6 * grid, coils: [0] },
  double: { height: 22 * grid, width: 12 * grid, coils: [-2.6 * grid, 2.6 * grid] },
  strip: { height: 23 * grid, width: 2 * grid, coils: [] },
} as const;
/** Strings stand about 10 mm apart over the poles. */
const polePitch = 33;
const poleRadius = 6;
const eyelet = 5;

export function pickupSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const { height, width, coils } = sizes[part.kind === 'humbucker' ? 'double' : part.kind === 'piezo' ? 'strip' : 'single'];
  const hasCover = part.lugs.some((lug) => lug.name === 'cover');
  const radius = part.kind === 'humbucker' ? 10 : Math.max(width / 2 - 4, 4);
  builder.box(hasCover ? 'metal' : 'body', { x: 0, y: 0, width, height, radius });
  builder.cover(0, 0, width, height);
  for (const x of coils) {
    const reach = 5 * polePitch + 34;
    builder.box(hasCover ? 'metal' : 'bobbin', { x, y: -6, width: 32, height: reach, radius: 16 });
    for (let pole = 0; pole < 6; pole++) builder.circle('pole', x, (pole - 2.5) * polePitch - 6, poleRadius);
  }
  const [leads, beads] = [leadsOf(part), beadsOf(part)];
  // Where the cover or the base is soldered to a lead, they lie side by side.
  addLeads(builder, leads, height / 2, beads.length === 0 ? undefined : width / 2 - 2 * grid);
  addBeads(builder, beads, width / 2, height / 2);
  builder.caption(part, 'above');
  return builder.finish();
}

/** The lugs of the type's row are its cable; what stands outside it is metal of the pickup itself. */
function leadsOf(part: DiagramPart): DiagramLug[] {
  return part.lugs.filter((lug) => !beadsOf(part).includes(lug));
}

function beadsOf(part: DiagramPart): DiagramLug[] {
  return ['base', 'cover'].flatMap((name) => part.lugs.filter((lug) => lug.metal && lug.name === name));
}

/** Names beside the wires' way down: to both sides of a pair, along the leads where there are more. */
function addLeads(builder: SymbolBuilder, leads: readonly DiagramLug[], bottom: number, right?: number): void {
  const y = snapUp(bottom);
  const isPair = leads.length <= 2;
  const pitch = isPair ? 2 * grid : 3 * grid;
  const span = (leads.length - 1) * pitch;
  const least = right === undefined ? -snapUp(span / 2) : right - span;
  const flange = span + 24;
  builder.box('wafer', { x: least + span / 2, y: y - 4, width: flange, height: 16, radius: 4 });
  leads.forEach((lug, index) => {
    const x = least + index * pitch;
    builder.lug(lug, x, y, south, { radius: eyelet });
    const width = lugNameWidth(lug.name);
    if (!isPair) builder.along(lug.name, x + pitch / 2, y + 14 + width / 2);
    else if (index === 0 && leads.length === 2) builder.around(lug.name, x - 12 - width / 2, y + 16);
    else builder.around(lug.name, x + 12 + width / 2, y + 16);
  });
}

/**
 * Where a wire is soldered to the cover or the base: on the metal, so that a pickup is as large without.
 * Lug and name lie on a patch of bright metal, since a coil behind them would swallow the name.
 */
function addBeads(builder: SymbolBuilder, beads: readonly DiagramLug[], side: number, bottom: number): void {
  const ends = [snapUp(bottom) - 4 * grid, -snapUp(bottom) + 2 * grid];
  beads.forEach((lug, index) => {
    const y = ends[index] ?? 0;
    const x = snapUp(side) - 2 * grid;
    const width = lugNameWidth(lug.name);
    builder.box('metal', { x: x - 5 - width / 2, y, width: width + 24, height: 16, radius: 4 });
    builder.lug(lug, x, y, east, { radius: eyelet });
    builder.around(lug.name, x - 8 - width / 2, y);
  });
}
