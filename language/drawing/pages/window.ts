/** What one page shows of a drawing: its parts, the wires between them, and the wires that end at the page's edge with a note of where they go. */
import { itemAt, pairwise } from '../../collections.js';
import { type Box, grow, holds, isWithin, joinBoxes, overlaps, type Point } from '../geometry.js';
import type { Picture, SceneWire } from '../scene.js';
import type { Label } from '../shape.js';
import { lugStyle } from '../symbols/symbol.js';
import { textHeight, textWidth } from '../text-measure.js';
import { type Block, wireBox } from './blocks.js';

/** A drawing with what is asked of it for every page. */
export interface Sheet {
  readonly picture: Picture;
  readonly blocks: readonly Block[];
  /** Wires with the blocks at their two ends; none where an end is no lug of a part. */
  readonly wires: readonly SheetWire[];
  /** Names of lugs as they are written, by their ids. */
  readonly lugNames: ReadonlyMap<string, string>;
}

export interface SheetWire {
  readonly wire: SceneWire;
  readonly ends: readonly [number | undefined, number | undefined];
  readonly box: Box;
}

export interface Window {
  /** Indices of the blocks on the page. */
  readonly blocks: ReadonlySet<number>;
  readonly box: Box;
  /** Wires that are on the page from one end to the other. */
  readonly whole: readonly SceneWire[];
  readonly cuts: readonly Cut[];
}

/** A wire from a lug on the page to where it leaves it. */
export interface Cut {
  readonly wire: SceneWire;
  /** From the lug to the edge. */
  readonly points: readonly Point[];
  readonly side: Side;
  /** The lug, or the wire, at its other end. */
  readonly to: string;
  /** The block there. */
  readonly block: number | undefined;
  readonly text: (page: string) => string;
}

export type Side = 'left' | 'right' | 'top' | 'bottom';
const sides: readonly Side[] = ['left', 'right', 'top', 'bottom'];

/** Free paper between what is on the page and its edge, as much as the neighbours allow. */
const margins = [16, 10, 5, 1] as const;
/** From the edge to a note, and from one note to the next. */
export const noteGap = 16;
export const notePitch = 18;

export function windowOf(sheet: Sheet, indices: readonly number[]): Window {
  const own = new Set(indices);
  const others = sheet.blocks.filter((_, index) => !own.has(index)).map(({ body }) => body);
  const content = joinBoxes(indices.map((index) => itemAt(sheet.blocks, index).box));
  const inside = sheet.wires.filter(({ ends }) => ends.every((end) => end !== undefined && own.has(end)));
  const isClear = (box: Box): boolean => !others.some((other) => overlaps(box, other));
  let around = content;
  for (const { box } of inside) {
    const wider = joinBoxes([around, box]);
    if (isClear(wider) || !isClear(around)) around = wider;
  }
  const margin = margins.find((by) => isClear(grow(around, by))) ?? 1;
  const box = grow(around, margin);
  const whole = inside.filter((one) => isWithin(one.box, box)).map(({ wire }) => wire);
  const kept = new Set(whole);
  const cuts = sheet.wires.flatMap((one) => (kept.has(one.wire) ? [] : cutsOf(sheet, one, own, box)));
  return { blocks: own, box, whole, cuts };
}

/** A wire's stretches from the lugs that are on the page to its edge. */
function cutsOf(sheet: Sheet, { wire, ends: [from, to] }: SheetWire, own: ReadonlySet<number>, box: Box): Cut[] {
  const there: Cut[] = [];
  const { points } = wire;
  if (from !== undefined && own.has(from)) there.push(cutFrom(sheet, wire, points, { end: wire.to, block: to }, box));
  if (to !== undefined && own.has(to))
    there.push(cutFrom(sheet, wire, [...points].reverse(), { end: wire.from, block: from }, box));
  return there;
}

function cutFrom(
  { lugNames, picture }: Sheet,
  wire: SceneWire,
  points: readonly Point[],
  { end, block }: { readonly end: string; readonly block: number | undefined },
  box: Box,
): Cut {
  const { kept, side } = upToEdge(points, box);
  const screenOf = (id: string): string => `screen of ${numberOf(picture.wires.find((other) => other.id === id)) || 'a wire'}`;
  const own = wire.kind === 'screen' && end !== wire.from ? screenOf(wire.from) : numberOf(wire);
  const name = lugNames.get(end) ?? screenOf(end);
  const text = (page: string): string => [own, '→', `${name},`, page].filter((word) => word !== '').join(' ');
  return { wire, points: kept, side, to: end, block, text };
}

/** `W5 BK`, as on the wire. */
function numberOf(wire: SceneWire | undefined): string {
  return wire?.labels[0]?.text ?? '';
}

/** A line from its beginning to where it first leaves a box; one that ends inside goes on to the nearest side. */
function upToEdge(points: readonly Point[], box: Box): { readonly kept: readonly Point[]; readonly side: Side } {
  const kept: Point[] = [itemAt(points, 0)];
  for (const [a, b] of pairwise(points)) {
    if (holds(box, b)) {
      kept.push(b);
      continue;
    }
    const exits = sides.flatMap((side) => {
      const share = shareAt(a, b, side, box);
      return share === undefined ? [] : [{ side, share }];
    });
    const exit = exits.sort((p, q) => p.share - q.share)[0];
    if (exit === undefined) break;
    const at = { x: a.x + (b.x - a.x) * exit.share, y: a.y + (b.y - a.y) * exit.share };
    return { kept: [...kept, at], side: exit.side };
  }
  const last = itemAt(kept, kept.length - 1);
  const edges = sides.map((side) => ({ side, at: onEdge(last, side, box) }));
  const nearest = edges.sort((p, q) => distance(last, p.at) - distance(last, q.at))[0];
  return { kept: nearest === undefined ? kept : [...kept, nearest.at], side: nearest?.side ?? 'left' };
}

function shareAt(a: Point, b: Point, side: Side, box: Box): number | undefined {
  const axis = side === 'left' || side === 'right' ? 'x' : 'y';
  const edge = edgeAt(side, box);
  const isOutward = side === 'left' || side === 'top' ? b[axis] < edge : b[axis] > edge;
  return isOutward && a[axis] !== b[axis] ? Math.max(0, (edge - a[axis]) / (b[axis] - a[axis])) : undefined;
}

function edgeAt(side: Side, { x, y, width, height }: Box): number {
  return { left: x, right: x + width, top: y, bottom: y + height }[side];
}

function onEdge({ x, y }: Point, side: Side, box: Box): Point {
  return side === 'left' || side === 'right' ? { x: edgeAt(side, box), y } : { x, y: edgeAt(side, box) };
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

export interface PlacedNote {
  readonly cut: Cut;
  readonly label: Label;
  /** Where the wire meets the note. */
  readonly at: Point;
}

/** The notes of a page's cuts beside its edges, none on another; `pageOf` says on which page a block is. */
export function notesOf({ blocks, cuts, box }: Window, pageOf: (block: number | undefined) => number): PlacedNote[] {
  return sides.flatMap((side) => {
    const isUpright = side === 'top' || side === 'bottom';
    const along = isUpright ? 'x' : 'y';
    const here = cuts.filter((cut) => cut.side === side);
    const sorted = here
      .map((cut) => ({ cut, wanted: itemAt(cut.points, cut.points.length - 1)[along] }))
      .sort((a, b) => a.wanted - b.wanted || (a.cut.wire.id < b.cut.wire.id ? -1 : 1));
    const places = spread(
      sorted.map(({ wanted }) => wanted),
      box[along] + notePitch / 2,
      box[along] + (isUpright ? box.width : box.height) - notePitch / 2,
    );
    return sorted.map(({ cut }, index): PlacedNote => {
      const isHere = cut.block !== undefined && blocks.has(cut.block);
      const text = cut.text(isHere ? 'this page' : `page ${pageOf(cut.block)}`);
      const [length, across] = [textWidth(text, lugStyle), textHeight(text, lugStyle)];
      const edge = edgeAt(side, box);
      const out = side === 'left' || side === 'top' ? -1 : 1;
      const place = itemAt(places, index);
      const begin = edge + out * noteGap;
      const middle = begin + (out * (length + 10)) / 2;
      const [x, y] = isUpright ? [place, middle] : [middle, place];
      const size = isUpright ? { width: across, height: length } : { width: length, height: across };
      const at = isUpright ? { x: place, y: begin } : { x: begin, y: place };
      const corner = { x: x - size.width / 2, y: y - size.height / 2 };
      const label: Label = { ...corner, ...size, text, size: lugStyle.size, bold: true, role: 'lug', upright: isUpright };
      return { cut, label, at };
    });
  });
}

/** Places at least so far apart as notes need, near those wanted, between two ends as far as there is room. */
function spread(wanted: readonly number[], from: number, to: number): number[] {
  const places: number[] = [];
  for (const place of wanted) places.push(Math.max(place, from, (places.at(-1) ?? -Infinity) + notePitch));
  let most = Math.max(to, from + (places.length - 1) * notePitch);
  for (let index = places.length - 1; index >= 0; index--) {
    places[index] = Math.min(itemAt(places, index), most);
    most = itemAt(places, index) - notePitch;
  }
  return places;
}

/** The pill around a note. */
export function noteBox({ x, y, width, height, upright }: Label): Box {
  const [dx, dy] = upright ? [3, 5] : [5, 3];
  return { x: x - dx, y: y - dy, width: width + 2 * dx, height: height + 2 * dy };
}

/** All that a page takes, its notes with a page's number of two digits. */
export function extentOf(window: Window): Box {
  return joinBoxes([window.box, ...notesOf(window, () => 99).map(({ label }) => noteBox(label))]);
}

export function sheetOf(picture: Picture, blocks: readonly Block[]): Sheet {
  const lugs = picture.parts.flatMap((part) => part.lugs);
  const blockOf = new Map(
    blocks.flatMap(({ parts }, index) => parts.flatMap((part) => part.lugs.map((lug) => [lug.id, index] as const))),
  );
  const byId = new Map(picture.wires.map((wire) => [wire.id, wire] as const));
  const wires = picture.wires.map((wire): SheetWire => {
    const endOf = (end: string, other: string): number | undefined => {
      // A mark is where its lug is; a screen's tie begins where its wire lies.
      const own = blockOf.get(end);
      if (own !== undefined) return own;
      const screened = byId.get(end);
      return screened === undefined ? blockOf.get(other) : nearestEnd(screened, wire, blockOf);
    };
    return { wire, ends: [endOf(wire.from, wire.to), endOf(wire.to, wire.from)], box: wireBox(wire) };
  });
  return { picture, blocks, wires, lugNames: new Map(lugs.map((lug) => [lug.id, lug.label])) };
}

/** The block at the end of a screened wire that is nearer to the tie of its screen. */
function nearestEnd(screened: SceneWire, tie: SceneWire, blockOf: ReadonlyMap<string, number>): number | undefined {
  const at = itemAt(tie.points, 0);
  const [first, last] = [itemAt(screened.points, 0), itemAt(screened.points, screened.points.length - 1)];
  return blockOf.get(distance(at, first) <= distance(at, last) ? screened.from : screened.to);
}
