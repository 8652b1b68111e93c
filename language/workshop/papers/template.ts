/** Drilling templates: each plate with measures at its true size, seen from the player's side, on as many pages as it takes. */
import { millimetres } from '../../checks/index.js';
import type { Plate } from '../../circuit/model.js';
import { firstOf } from '../../collections.js';
import type { Build } from '../build.js';
import { holesOf, type Hole } from '../places/drilling.js';
import { line, linesOf, mm, PAGE, pageSvg, text, type Point } from './paper.js';

/** A plate laid out for drilling, in millimetres from the upper left corner of the drawing. */
export interface Template {
  readonly plate: string;
  readonly width: number;
  readonly height: number;
  /** False where the text gives no size: the drawing is then as large as the holes need. */
  readonly isOutlined: boolean;
  /** Laid on its side, so that it takes fewer pages. */
  readonly isTurned: boolean;
  readonly marks: readonly Mark[];
  /** The corner that X and Y of the text count from. */
  readonly corner: Point;
  /** Parts that the text gives no place. */
  readonly unplaced: readonly string[];
}

export interface Mark extends Point {
  readonly name: string;
  /** Diameter; absent: to be measured on the part. */
  readonly hole?: number;
}

/** Room for the plate on a page, and what two pages of one plate show alike. */
const WINDOW = { x: 2, y: 40, width: 180, height: 184 } as const;
const OVERLAP = 15;
/** Round holes on a plate without a size. */
const MARGIN = 15;

/** The templates of all plates on which the text gives a place to at least one part. */
export function templates(build: Build): readonly Template[] {
  return build.plates.flatMap((plate) => {
    const made = templateOf(build, plate);
    return made === undefined ? [] : [made];
  });
}

function templateOf(build: Build, plate: Plate): Template | undefined {
  const holes = holesOf(build, plate);
  const placed = holes.filter((hole): hole is Hole & { at: Point } => hole.at !== undefined);
  if (placed.length === 0) return undefined;
  const width = plate.size === undefined ? Math.max(...placed.map(({ at }) => at.x)) * 1000 + MARGIN : plate.size.width * 1000;
  const height = plate.size === undefined ? Math.max(...placed.map(({ at }) => at.y)) * 1000 + MARGIN : plate.size.height * 1000;
  // The text counts from the corner that is at the upper left from the solder side, as the drawing shows it. From the player's side it is at the upper right.
  const seen = ({ x, y }: Point): Point => ({ x: width - x * 1000, y: y * 1000 });
  const isTurned = pagesFor(height, width) < pagesFor(width, height);
  const turned = ({ x, y }: Point): Point => (isTurned ? { x: height - y, y: x } : { x, y });
  return {
    plate: plate.name,
    width: isTurned ? height : width,
    height: isTurned ? width : height,
    isOutlined: plate.size !== undefined,
    isTurned,
    marks: placed.map(({ part, at, diameter }) => ({
      name: part.name,
      ...turned(seen(at)),
      ...(diameter === undefined ? {} : { hole: diameter * 1000 }),
    })),
    corner: turned({ x: width, y: 0 }),
    unplaced: holes.filter(({ at }) => at === undefined).map(({ part }) => part.name),
  };
}

function pagesFor(width: number, height: number): number {
  return startsOf(width, WINDOW.width).length * startsOf(height, WINDOW.height).length;
}

/** Where each page begins along one side. */
function startsOf(length: number, room: number): readonly number[] {
  if (length <= room) return [0];
  const starts: number[] = [];
  for (let from = 0; from + OVERLAP < length; from += room - OVERLAP) starts.push(from);
  return starts;
}

/** The pages of all templates; one page that says why where there is none. */
export function templatePages(build: Build): readonly string[] {
  const made = templates(build);
  if (made.length > 0) return made.flatMap(pagesOf);
  return [
    pageSvg([
      text(0, 5, 'Drilling template', { size: 5, bold: true }),
      text(0, 12, 'No plate of this circuit gives its parts places, so there is nothing to drill by:'),
      text(0, 17, 'plate NAME in CAVITY size 120 60 { volume at 20 30, … }'),
    ]),
  ];
}

function pagesOf(template: Template): string[] {
  const columns = startsOf(template.width, WINDOW.width);
  const rows = startsOf(template.height, WINDOW.height);
  return rows.flatMap((top, row) =>
    columns.map((left, column) =>
      pageSvg([
        ...headOf(template, row * columns.length + column + 1, rows.length * columns.length),
        ...scaleBar(),
        ...windowOf(template, { left, top, isFirstColumn: column === 0, isFirstRow: row === 0 }),
      ]),
    ),
  );
}

function headOf(
  { plate, isOutlined, isTurned, width, height, marks, unplaced }: Template,
  page: number,
  pages: number,
): string[] {
  const size = isOutlined
    ? `${millimetres((isTurned ? height : width) / 1000)} × ${millimetres((isTurned ? width : height) / 1000)}`
    : 'The text gives no size: holes only, no outline. Measure from the corner mark.';
  const remarks = [
    'Print at 100 % (“actual size”). Before you drill, measure the bar below: it must be right to the half millimetre.',
    'Mirrored, to lie on the face: tape it to the player’s side of the plate and drill from there.',
    `X and Y count from the upper left corner as the solder side and the drawing show it: here at the ${isTurned ? 'lower' : 'upper'} right, marked 0, 0.${isTurned ? ' The plate lies on its side.' : ''}`,
    ...(marks.every(({ hole }) => hole !== undefined)
      ? []
      : ['Where the text gives no hole, only the centre is marked: measure the part, and write the diameter down.']),
    ...(pages > 1
      ? [
          `Page ${page} of ${pages}: cut along the dashed lines, lay their crosses over each other, and check a length across the joint.`,
        ]
      : []),
    ...(unplaced.length > 0 ? [`Without a place in the text, not drawn: ${unplaced.join(', ')}.`] : []),
  ];
  return [
    text(0, 5, `Drilling template: plate ${plate}`, { size: 5, bold: true }),
    text(0, 10, size),
    ...remarks
      .flatMap((words) => linesOf(words, 2.6, PAGE.width * 1.15, 2))
      .slice(0, 8)
      .map((words, index) => text(0, 15 + index * 3.4, words, { size: 2.6 })),
  ];
}

/** 50 mm, and 2 in below it: on either paper one of them can be laid against the ruler at hand. */
function scaleBar(): string[] {
  const y = PAGE.height - 14;
  const bar = (at: number, length: number, says: string, ticks: number): string[] => [
    `<rect class="scale" x="2" y="${at}" width="${length}" height="1.5" fill="#000"/>`,
    ...Array.from({ length: ticks + 1 }, (_, index) =>
      line({ x: 2 + (length * index) / ticks, y: at - 1.5 }, { x: 2 + (length * index) / ticks, y: at }, 0.15),
    ),
    text(2 + length + 2, at + 1.9, says, { size: 3 }),
  ];
  return [...bar(y, 50, '50 mm', 5), ...bar(y + 7, 50.8, '2 in', 2)];
}

interface Frame {
  readonly left: number;
  readonly top: number;
  readonly isFirstColumn: boolean;
  readonly isFirstRow: boolean;
}

/** What of the plate is on one page. What lies beyond is clipped; marks in the overlap are on both pages. */
function windowOf(template: Template, { left, top, isFirstColumn, isFirstRow }: Frame): string[] {
  const [width, height] = [Math.min(WINDOW.width, template.width - left), Math.min(WINDOW.height, template.height - top)];
  const shift = { x: WINDOW.x - left, y: WINDOW.y - top };
  const isIn = ({ x, y }: Point): boolean => x >= left && x <= left + width && y >= top && y <= top + height;
  const [right, bottom] = [left + width < template.width, top + height < template.height];
  const at = ({ x, y }: Point): Point => ({ x: x + shift.x, y: y + shift.y });
  const edge = (from: Point, to: Point): string => line(at(from), at(to), 0.3);
  const [x1, y1, x2, y2] = [left, top, left + width, top + height];
  const outline = template.isOutlined
    ? [
        ...(isFirstColumn ? [edge({ x: x1, y: y1 }, { x: x1, y: y2 })] : []),
        ...(isFirstRow ? [edge({ x: x1, y: y1 }, { x: x2, y: y1 })] : []),
        ...(right ? [] : [edge({ x: x2, y: y1 }, { x: x2, y: y2 })]),
        ...(bottom ? [] : [edge({ x: x1, y: y2 }, { x: x2, y: y2 })]),
      ]
    : [];
  const seams = [
    ...(isFirstColumn ? [] : seam(at({ x: x1 + OVERLAP / 2, y: y1 }), at({ x: x1 + OVERLAP / 2, y: y2 }))),
    ...(right ? seam(at({ x: x2 - OVERLAP / 2, y: y1 }), at({ x: x2 - OVERLAP / 2, y: y2 })) : []),
    ...(isFirstRow ? [] : seam(at({ x: x1, y: y1 + OVERLAP / 2 }), at({ x: x2, y: y1 + OVERLAP / 2 }))),
    ...(bottom ? seam(at({ x: x1, y: y2 - OVERLAP / 2 }), at({ x: x2, y: y2 - OVERLAP / 2 })) : []),
  ];
  const corner = isIn(template.corner) ? cornerAt(at(template.corner), template.isTurned) : [];
  const marks = template.marks.filter(isIn).map((mark) => ({ ...mark, ...at(mark) }));
  return [...outline, ...seams, ...corner, ...marksAt(marks)];
}

/** The line in the middle of an overlap, with a cross a third along from each end: the same place on both pages. */
function seam(from: Point, to: Point): string[] {
  const crosses = [1 / 3, 2 / 3].flatMap((share) => {
    const [x, y] = [from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share];
    return [
      line({ x: x - 3, y }, { x: x + 3, y }, 0.15),
      line({ x, y: y - 3 }, { x, y: y + 3 }, 0.15),
      `<circle cx="${x}" cy="${y}" r="1.5" fill="none" stroke="#000" stroke-width="0.15"/>`,
    ];
  });
  return [line(from, to, 0.15, '2 1'), ...crosses];
}

function cornerAt({ x, y }: Point, isTurned: boolean): string[] {
  const down = isTurned ? -1 : 1;
  return [
    line({ x: x - 4, y }, { x, y }, 0.6),
    line({ x, y }, { x, y: y + 4 * down }, 0.6),
    text(x - 1, y + (isTurned ? -2 : 4.5), '0, 0', { size: 2.6, anchor: 'end' }),
  ];
}

interface WordsPlace {
  readonly x: number;
  /** Base line of the name; the diameter is 3.2 below it. */
  readonly y: number;
  readonly width: number;
}

/** Holes with their crosses and words: below the hole, above it where other words are below, else a little lower still. */
function marksAt(marks: readonly Mark[]): string[] {
  const taken: WordsPlace[] = [];
  return marks.flatMap((mark) => {
    const { name, x, y, hole } = mark;
    const reach = (hole ?? 0) / 2 + 3;
    const diameter = hole === undefined ? '⌀ ____ mm' : `⌀ ${millimetres(hole / 1000)}`;
    const width = Math.max([...name].length * 3, [...diameter].length * 2.6) * 0.6;
    const places = [reach + 3, -reach - 4.2, reach + 10.5].map((down): WordsPlace => ({ x, y: y + down, width }));
    const words = places.find((place) => !taken.some((other) => overlap(place, other))) ?? firstOf(places);
    taken.push(words);
    return [
      ...(hole === undefined
        ? []
        : [
            `<circle class="hole" cx="${mm(x)}" cy="${mm(y)}" r="${mm(hole / 2)}" fill="none" stroke="#000" stroke-width="0.25"/>`,
          ]),
      line({ x: x - reach, y }, { x: x + reach, y }, 0.15),
      line({ x, y: y - reach }, { x, y: y + reach }, 0.15),
      text(x, words.y, name, { size: 3, bold: true, anchor: 'middle' }),
      text(x, words.y + 3.2, diameter, { size: 2.6, anchor: 'middle' }),
    ];
  });
}

function overlap(one: WordsPlace, other: WordsPlace): boolean {
  return Math.abs(one.y - other.y) < 7 && Math.abs(one.x - other.x) < (one.width + other.width) / 2;
}
