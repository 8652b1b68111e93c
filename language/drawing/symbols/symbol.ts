/** A part's outline in its own frame: shapes, lugs with the accesses by which a wire may reach them, labels, contacts. */
import type { DiagramLug, DiagramPart } from '../diagram/diagram.js';
import {
  type Box,
  boxAround,
  grid,
  grow,
  type Heading,
  joinBoxes,
  meets,
  moved,
  overlaps,
  type Point,
  snapDown,
  snapUp,
  stepOf,
  turned,
  turnPoint,
  veered,
  wireReach,
} from '../geometry.js';
import type { Label, Role, Shape } from '../shape.js';
import { fitText, textHeight, type TextStyle, textWidth } from '../text-measure.js';

export interface Symbol {
  readonly width: number;
  readonly height: number;
  /** The point that a place on a plate means: the shaft, the middle of a switch. */
  readonly centre: Point;
  readonly shapes: readonly Shape[];
  readonly pads: readonly Pad[];
  readonly labels: readonly Label[];
  readonly contacts: readonly SymbolContact[];
  /** What no wire but the part's own may run through: lugs, letters, numbers. */
  readonly keepOut: readonly Box[];
  /** Bodies: a wire may pass over one, and rather goes around it where that is about as short. */
  readonly covers: readonly Box[];
}

export interface Pad extends Point {
  /** Id of the lug. */
  readonly lug: string;
  readonly radius: number;
  /** `lug` is round with a hole; `spot` is solder on a larger piece of metal and is drawn only where a wire lands; `none` is no lug at all, but the end of a stub. */
  readonly look: 'lug' | 'spot' | 'none';
  readonly accesses: readonly Access[];
}

/** An access to a lug: a grid point beside it, the heading in which a wire leaves the lug there, and the line between. */
export interface Access extends Point {
  readonly heading: Heading;
  /** Where the joint is; the last stretch of wire runs from here to the grid point. */
  readonly landing: Point;
  /** Extra cost of this access. */
  readonly cost: number;
}

export interface SymbolContact {
  readonly id: string;
  readonly lines: readonly (readonly Point[])[];
}

export const nameStyle: TextStyle = { size: 14, bold: true };
export const valueStyle: TextStyle = { size: 12 };
export const lugStyle: TextStyle = { size: 11, bold: true };
export const noteStyle: TextStyle = { size: 11 };
const lineGap = 3;
export const padRadius = 6;
/** Nothing but its own wires comes nearer to a label than this. */
const labelClearance = 3;
/** Less for a name on its lug's own tab, whose brass tells it from a wire beside the tab. */
export const tabClearance = 0.5;
/** A longer text is cut; the whole of it is what screen readers and pointers get. */
const longest = 200;
const mostNameLines = 3;

export interface LugOptions {
  readonly radius?: number;
  /** Further headings in which a wire may leave. */
  readonly also?: readonly Heading[];
}

export type CaptionPlace = { readonly at: Point; readonly width: number } | 'above' | 'right';

export interface SymbolBuilder {
  readonly turn: number;
  circle(role: Role, x: number, y: number, r: number): void;
  /** By its centre. */
  box(role: Role, box: Box & { readonly radius?: number }): void;
  path(role: Role, points: readonly Point[], closed?: boolean): void;
  pad(lug: string, at: Point, accesses: readonly Access[], look?: Pad['look'], radius?: number): void;
  /** A round lug that wires leave outwards, slantwise, to both sides, and inwards where they must. */
  lug(lug: DiagramLug, x: number, y: number, outward: Heading, options?: LugOptions): void;
  /** A flat strip of brass from one point to another. */
  leaf(from: Point, to: Point, width: number): void;
  /** A label whose near edge lies `gap` away from a point. */
  beside(text: string, x: number, y: number, toward: Heading, gap: number): void;
  /** A label around a point. */
  around(text: string, x: number, y: number): void;
  /** A lug's name on its tab, around a point. */
  onTab(text: string, x: number, y: number): void;
  /** A label that runs down the page of the unturned part, around a point. */
  along(text: string, x: number, y: number): void;
  /** A note around a point, smaller than a name. */
  note(text: string, x: number, y: number): void;
  keepOut(x: number, y: number, width: number, height: number): void;
  /** The same of a body, over which a wire may pass. */
  cover(x: number, y: number, width: number, height: number): void;
  contact(id: string, lines: readonly (readonly Point[])[]): void;
  /** Whether solder at an access's landing would touch no letter or lug drawn so far, nor its wire on the way out. */
  readonly isOpen: (access: Access) => boolean;
  /** Name and values, lines centred on a point of the frame, or above or right of all that has been drawn. */
  caption(part: DiagramPart, place: CaptionPlace): void;
  /** `centre` is the point of the frame that a place on a plate means. */
  finish(centre?: Point): Symbol;
}

/** Everything is given in the frame of an unturned part; the builder turns it clockwise by quarters and keeps the text upright. */
export function createSymbolBuilder(turn: number): SymbolBuilder {
  return new TurnedSymbol(turn);
}

class TurnedSymbol implements SymbolBuilder {
  readonly turn: number;
  readonly #shapes: Shape[] = [];
  readonly #pads: Pad[] = [];
  readonly #labels: Label[] = [];
  readonly #contacts: SymbolContact[] = [];
  readonly #keepOut: Box[] = [];
  readonly #covers: Box[] = [];

  constructor(turn: number) {
    this.turn = turn;
  }

  circle(role: Role, x: number, y: number, r: number): void {
    this.#shapes.push({ kind: 'circle', role, ...this.#at({ x, y }), r });
  }

  box(role: Role, { x, y, width, height, radius = 0 }: Box & { readonly radius?: number }): void {
    this.#shapes.push({ kind: 'box', role, radius, ...this.#centred(x, y, width, height) });
  }

  path(role: Role, points: readonly Point[], closed = false): void {
    this.#shapes.push({ kind: 'path', role, closed, points: points.map((point) => this.#at(point)) });
  }

  pad(lug: string, { x, y }: Point, accesses: readonly Access[], look: Pad['look'] = 'lug', radius = padRadius): void {
    const own = accesses.map((access) => ({
      ...this.#at(access),
      heading: turned(access.heading, this.turn),
      landing: this.#at(access.landing),
      cost: access.cost,
    }));
    this.#pads.push({ lug, ...this.#at({ x, y }), radius, look, accesses: own });
    if (look === 'lug') this.keepOut(x, y, 2 * radius, 2 * radius);
  }

  lug(lug: DiagramLug, x: number, y: number, outward: Heading, { radius = padRadius, also = [] }: LugOptions = {}): void {
    this.pad(lug.id, { x, y }, lugAccesses({ x, y }, outward, also), 'lug', radius);
  }

  leaf(from: Point, to: Point, width: number): void {
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    const across = { x: ((from.y - to.y) / length) * (width / 2), y: ((to.x - from.x) / length) * (width / 2) };
    const back = { x: -across.x, y: -across.y };
    this.path('leaf', [moved(from, across), moved(to, across), moved(to, back), moved(from, back)], true);
  }

  beside(text: string, x: number, y: number, toward: Heading, gap: number): void {
    const step = stepOf(turned(toward, this.turn));
    const from = this.#at({ x, y });
    const reach = gap + (step.x === 0 ? textHeight(text, lugStyle) : lugNameWidth(text)) / 2;
    this.#label(text, { x: from.x + step.x * reach, y: from.y + step.y * reach }, lugStyle, 'lug');
  }

  around(text: string, x: number, y: number): void {
    this.#label(text, this.#at({ x, y }), lugStyle, 'lug');
  }

  onTab(text: string, x: number, y: number): void {
    this.#label(text, this.#at({ x, y }), lugStyle, 'lug', { clearance: tabClearance });
  }

  along(text: string, x: number, y: number): void {
    this.#label(text, this.#at({ x, y }), lugStyle, 'lug', { upright: this.turn % 2 === 0 });
  }

  note(text: string, x: number, y: number): void {
    this.#label(text, this.#at({ x, y }), noteStyle, 'value', { upright: this.turn % 2 !== 0 });
  }

  keepOut(x: number, y: number, width: number, height: number): void {
    this.#keepOut.push(this.#centred(x, y, width, height));
  }

  cover(x: number, y: number, width: number, height: number): void {
    this.#covers.push(this.#centred(x, y, width, height));
  }

  contact(id: string, lines: readonly (readonly Point[])[]): void {
    this.#contacts.push({ id, lines: lines.map((line) => line.map((point) => this.#at(point))) });
  }

  readonly isOpen = (access: Access): boolean => {
    const way = grow(boxAround([this.#at(access), this.#at(access.landing)]), 4);
    return !this.#keepOut.some((area) => overlaps(area, way));
  };

  caption(part: DiagramPart, place: CaptionPlace): void {
    const box = this.#drawn();
    const lines = captionLines(part, typeof place === 'object' ? place.width : place === 'right' ? Infinity : box.width + 24);
    const height = lines.reduce((sum, line) => sum + textHeight(line.text, line.style) + lineGap, -lineGap);
    const width = Math.max(...lines.map((line) => textWidth(line.text, line.style)));
    const { x, top: begin } = this.#captionPlace(place, box, width, height);
    let top = begin;
    for (const line of lines) {
      const lineHeight = textHeight(line.text, line.style);
      const role = line.style === nameStyle ? 'name' : 'value';
      this.#label(line.text, { x, y: top + lineHeight / 2 }, line.style, role);
      top += lineHeight + lineGap;
    }
  }

  #captionPlace(place: CaptionPlace, box: Box, width: number, height: number): { readonly x: number; readonly top: number } {
    if (place === 'above') return { x: box.x + box.width / 2, top: box.y - 8 - height };
    if (place === 'right') return { x: box.x + box.width + 8 + width / 2, top: box.y + (box.height - height) / 2 };
    const { x, y } = this.#at(place.at);
    return { x, top: y - height / 2 };
  }

  finish(centre: Point = { x: 0, y: 0 }): Symbol {
    const box = this.#drawn();
    const left = snapDown(box.x);
    const top = snapDown(box.y);
    const by = { x: -left, y: -top };
    return {
      width: snapUp(box.x + box.width) - left,
      height: snapUp(box.y + box.height) - top,
      centre: moved(this.#at(centre), by),
      shapes: this.#shapes.map((shape) => moveShape(shape, by)),
      pads: this.#pads.map((pad) => movePad(this.#withFreeAccesses(pad), by)),
      labels: this.#labels.map((text) => moved(text, by)),
      contacts: this.#contacts.map(({ id, lines }) => ({
        id,
        lines: lines.map((line) => line.map((point) => moved(point, by))),
      })),
      keepOut: this.#keepOut.map((area) => moved(area, by)),
      covers: this.#covers.map((area) => moved(area, by)),
    };
  }

  /** A wire does not leave a lug over a name, though it were for less than a step; the last way out stays in any case. */
  #withFreeAccesses(pad: Pad): Pad {
    if (pad.look !== 'lug') return pad;
    const names = this.#labels.map((label) => grow<Box>(label, wireReach));
    const free = pad.accesses.filter((access) => !names.some((box) => meets(access.landing, access, box)));
    return free.length === 0 ? pad : { ...pad, accesses: free };
  }

  #at({ x, y }: Point): Point {
    return turnPoint({ x, y }, this.turn);
  }

  #centred(x: number, y: number, width: number, height: number): Box {
    const centre = this.#at({ x, y });
    const [across, down] = this.turn % 2 === 0 ? [width, height] : [height, width];
    return { x: centre.x - across / 2, y: centre.y - down / 2, width: across, height: down };
  }

  #label(
    whole: string,
    centre: Point,
    style: TextStyle,
    role: Label['role'],
    { upright = false, clearance = labelClearance }: { readonly upright?: boolean; readonly clearance?: number } = {},
  ): void {
    const text = fitText(whole, style, longest);
    const [long, high] = [textWidth(text, style), textHeight(text, style)];
    const [width, height] = upright ? [high, long] : [long, high];
    const box = { x: centre.x - width / 2, y: centre.y - height / 2, width, height };
    this.#labels.push({ ...box, text, size: style.size, bold: style.bold === true, role, upright });
    this.#keepOut.push(grow(box, clearance));
  }

  #drawn(): Box {
    return joinBoxes([
      ...this.#shapes.map(shapeBox),
      ...this.#labels,
      ...this.#pads.flatMap((pad) => [grow({ ...pad, width: 0, height: 0 }, pad.radius), boxAround(waysOut(pad))]),
    ]);
  }
}

/** What stays free around a lug; of a stub's end only the way that is meant for it. */
function waysOut({ look, accesses }: Pad): readonly Access[] {
  return look === 'none' ? accesses.slice(0, 1) : accesses;
}

/** Width of a lug's name as it is drawn. */
export function lugNameWidth(name: string): number {
  return textWidth(fitText(name, lugStyle, longest), lugStyle);
}

/** The lines under which a part is known: its name, broken at hyphens where it is wider than there is room, then its values. */
export function captionLines(part: DiagramPart, width: number): { readonly text: string; readonly style: TextStyle }[] {
  const name: string[] = [];
  for (const piece of part.name.match(/[^-]+-?/gu) ?? [part.name]) {
    const last = name.at(-1);
    if (last !== undefined && textWidth(last + piece, nameStyle) <= width) name[name.length - 1] = last + piece;
    else name.push(piece);
  }
  if (name.length > mostNameLines) name.splice(mostNameLines - 1, Infinity, name.slice(mostNameLines - 1).join(''));
  return [
    ...name.map((text) => ({ text: fitText(text, nameStyle, longest), style: nameStyle })),
    ...part.values.map((text) => ({ text: fitText(text, valueStyle, longest), style: valueStyle })),
  ];
}

/** Width of a caption that has `width` to stand in. */
export function captionWidth(part: DiagramPart, width: number): number {
  return Math.max(...captionLines(part, width).map((line) => textWidth(line.text, line.style)));
}

export function moveShape(shape: Shape, by: Point): Shape {
  return shape.kind === 'path' ? { ...shape, points: shape.points.map((point) => moved(point, by)) } : moved(shape, by);
}

export function movePad(pad: Pad, by: Point): Pad {
  return {
    ...moved(pad, by),
    accesses: pad.accesses.map((access) => ({ ...moved(access, by), landing: moved(access.landing, by) })),
  };
}

/** The smallest box that holds a shape. */
export function shapeBox(shape: Shape): Box {
  if (shape.kind === 'path') return boxAround(shape.points);
  if (shape.kind === 'circle') return { x: shape.x - shape.r, y: shape.y - shape.r, width: 2 * shape.r, height: 2 * shape.r };
  return shape;
}

/** By eighths from the lug's own direction, and what an access costs there; inwards it leads across the part. */
const accessTurns = [
  [0, 0],
  [1, 0.6],
  [-1, 0.6],
  [2, 2],
  [-2, 2],
  [3, 3],
  [-3, 3],
  [4, 3],
] as const;

/** The accesses to a lug: straight out first, slantwise, from both sides, and inwards for a jumper across the part. */
function lugAccesses(lug: Point, outward: Heading, also: readonly Heading[]): Access[] {
  return accessTurns.map(([eighths, cost]): Access => {
    const heading = veered(outward, eighths);
    return { ...moved(lug, scaled(stepOf(heading))), heading, landing: lug, cost: also.includes(heading) ? 0 : cost };
  });
}

function scaled(step: Point): Point {
  return { x: step.x * grid, y: step.y * grid };
}
