/** Pieces set out as a family of arrangement says: in rows, rows in columns, all lined up by the middles of the parts. */
import { firstOf, itemAt } from '../../collections.js';
import { grid, snap, snapUp } from '../geometry.js';
import type { Family, FamilyRow } from './families.js';
import { joinPieces, movePiece, type Piece } from './piece.js';
import { byPlace, type Station } from './stations.js';

/** Room between the pieces of a row, between rows, and between columns. A few wires run in each; whatever is joined to what, it is the same. */
const gaps = { piece: 5 * grid, row: 6 * grid, column: 6 * grid } as const;
/** The same where small parts lie in it. */
const wide = { piece: 10 * grid, row: 8 * grid, column: 13 * grid } as const;

/** What a sheet should fit on, in drawing units. */
export interface Page {
  readonly width: number;
  readonly height: number;
}

/** A page of A4 on its side and upright, on which the smallest text has six points, less the title and the legend. */
export const a4: readonly Page[] = [
  { width: 1320, height: 760 },
  { width: 900, height: 1180 },
];

/** Pairs of parts between which small parts lie, soldered to both. */
export type Spans = readonly (readonly [string, string])[];
/** Width at which a long row goes on below; wide enough for the controls of any instrument. */
const longestRow = 90 * grid;

/** Pieces by the station at which they belong, as one piece; none where there is nothing to set out. Room is left for small parts between those that they span. */
export function setOut(
  name: string,
  family: Family,
  pieces: ReadonlyMap<Station, readonly Piece[]>,
  { spans, pages }: { readonly spans: Spans; readonly pages: readonly Page[] },
): Piece | undefined {
  const columns = family.columns.flatMap((rows) => {
    const lines = rows.flatMap((row) => linesOf(row, pieces, spans));
    return lines.length === 0 ? [] : [columnOf(name, lines, spans)];
  });
  const [first, ...rest] = columns;
  if (first === undefined) return undefined;
  const gapBetween = (a: Piece, b: Piece): number => gapOf('column', a, b, spans);
  const wide = beside(name, columns, 'middle', gapBetween);
  if (rest.length < 2) return wide;
  // What is too wide for a page has its first column, the pickups, above the others.
  const tall = above(name, first, beside(name, rest, 'middle', gapBetween), spans);
  return scaleOn(pages, wide) >= scaleOn(pages, tall) ? wide : tall;
}

/** One piece above another, by their middles; where the upper is wider, the lower lies at its right end, so that what ends it lies at an edge. */
function above(name: string, upper: Piece, lower: Piece, spans: Spans): Piece {
  const room = upper.box.width - lower.box.width;
  return joinPieces(name, [
    movePiece(upper, { x: snap(-upper.box.x), y: snap(-upper.box.y) }),
    movePiece(lower, {
      x: snap((room > 0 ? room : room / 2) - lower.box.x),
      y: snapUp(upper.box.height + gapOf('row', upper, lower, spans)) - snap(lower.box.y),
    }),
  ]);
}

/** The scale at which a piece fits on the page that suits it best; 1 at most. */
function scaleOn(pages: readonly Page[], { box }: Piece): number {
  return Math.min(1, Math.max(...pages.map(({ width, height }) => Math.min(width / box.width, height / box.height))));
}

/** The pieces of a row, in as many lines as they need. */
function linesOf({ stations, isStacked }: FamilyRow, pieces: ReadonlyMap<Station, readonly Piece[]>, spans: Spans): Piece[][] {
  const inRow = stations.flatMap((station) => [...(pieces.get(station) ?? [])].sort((a, b) => byPlace(a.name, b.name)));
  const lines: Piece[][] = [];
  let width = Infinity;
  for (const piece of inRow) {
    const before = lines.at(-1)?.at(-1);
    width += piece.box.width + (before === undefined ? 0 : gapOf('piece', before, piece, spans));
    const line = lines.at(-1);
    if (line === undefined || isStacked === true || width > longestRow) {
      lines.push([piece]);
      width = piece.box.width;
    } else line.push(piece);
  }
  return lines;
}

/** Lines below each other. Lines with the same number of pieces form a table with columns. */
function columnOf(name: string, lines: readonly (readonly Piece[])[], spans: Spans): Piece {
  const isTable = lines.length > 1 && lines.every((line) => line.length === firstOf(lines).length);
  const joined = isTable
    ? tableLines(name, lines, spans)
    : lines.map((line) => beside(name, line, 'centre', (a, b) => gapOf('piece', a, b, spans)));
  const middle = Math.max(...joined.map(({ box }) => box.width)) / 2;
  let y = 0;
  const placed = joined.map((line, index) => {
    const x = isTable ? 0 : snap(middle - line.box.width / 2 - line.box.x);
    const moved = movePiece(line, { x, y: snap(y - line.box.y) });
    const next = joined[index + 1];
    y += next === undefined ? 0 : snapUp(line.box.height + gapOf('row', line, next, spans));
    return moved;
  });
  return joinPieces(name, placed);
}

/** Lines with their pieces in columns, a column as wide as its widest piece. */
function tableLines(name: string, lines: readonly (readonly Piece[])[], spans: Spans): Piece[] {
  const columns = firstOf(lines).map((_, at) => lines.map((line) => itemAt(line, at)));
  let x = 0;
  const middles = columns.map((column, at) => {
    const half = Math.max(...column.map(halfWidth));
    const middle = x + half;
    const next = columns[at + 1];
    const gap = next === undefined ? 0 : gapOf('piece', joinPieces('', column), joinPieces('', next), spans);
    x = snapUp(x + 2 * half + gap);
    return middle;
  });
  return lines.map((line) =>
    joinPieces(
      name,
      line.map((piece, at) => movePiece(piece, { x: snap(itemAt(middles, at) - piece.centre.x), y: -snap(piece.centre.y) })),
    ),
  );
}

/** From the middle of a piece to its farther side. */
function halfWidth({ box, centre }: Piece): number {
  return Math.max(centre.x - box.x, box.x + box.width - centre.x);
}

/** Pieces side by side, lined up by their centres or by the middles of their boxes. */
function beside(
  name: string,
  pieces: readonly Piece[],
  by: 'centre' | 'middle',
  gapBetween: (piece: Piece, next: Piece) => number,
): Piece {
  let x = 0;
  const placed = pieces.map((piece, index) => {
    const middle = by === 'centre' ? piece.centre.y : piece.box.y + piece.box.height / 2;
    const moved = movePiece(piece, { x: snap(x - piece.box.x), y: -snap(middle) });
    const next = pieces[index + 1];
    x += next === undefined ? 0 : snapUp(piece.box.width + gapBetween(piece, next));
    return moved;
  });
  return joinPieces(name, placed);
}

function gapOf(kind: keyof typeof gaps, a: Piece, b: Piece, spans: Spans): number {
  const holds = ({ symbols }: Piece, id: string): boolean => symbols.some(({ part }) => part.id === id);
  const isSpanned = spans.some(([one, other]) => (holds(a, one) && holds(b, other)) || (holds(a, other) && holds(b, one)));
  return (isSpanned ? wide : gaps)[kind];
}
