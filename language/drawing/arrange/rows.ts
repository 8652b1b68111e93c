/** Pieces set out as a family of arrangement says: in rows, rows in columns, all lined up by the middles of the parts. */
import { firstOf } from '../../collections.js';
import { grid, snap, snapUp } from '../geometry.js';
import type { Family, FamilyRow } from './families.js';
import { joinPieces, movePiece, type Piece } from './piece.js';
import { byPlace, type Station } from './stations.js';

/** Room between the pieces of a row, between rows, and between columns. A few wires run in each; whatever is joined to what, it is the same. */
const gaps = { piece: 4 * grid, row: 5 * grid, column: 6 * grid } as const;
/** The same where small parts lie between the controls. */
const wide = { piece: 6 * grid, row: 6 * grid, column: 13 * grid } as const;
type Gaps = Readonly<Record<keyof typeof gaps, number>>;
/** Width at which a long row goes on below; wide enough for the controls of any instrument. */
const longestRow = 90 * grid;

/** Pieces by the station at which they belong, as one piece; none where there is nothing to set out. `isWide` leaves room for small parts between them. */
export function setOut(
  name: string,
  family: Family,
  pieces: ReadonlyMap<Station, readonly Piece[]>,
  isWide: boolean,
): Piece | undefined {
  const room = isWide ? wide : gaps;
  const columns = family.columns.flatMap((rows) => {
    const lines = rows.flatMap((row) => linesOf(row, pieces, room));
    return lines.length === 0 ? [] : [columnOf(name, lines, room)];
  });
  return columns.length === 0 ? undefined : beside(name, columns, room.column, 'middle');
}

/** The pieces of a row, in as many lines as they need. */
function linesOf({ stations }: FamilyRow, pieces: ReadonlyMap<Station, readonly Piece[]>, room: Gaps): Piece[][] {
  const inRow = stations.flatMap((station) => [...(pieces.get(station) ?? [])].sort((a, b) => byPlace(a.name, b.name)));
  const lines: Piece[][] = [];
  let width = Infinity;
  for (const piece of inRow) {
    width += piece.box.width + room.piece;
    const line = lines.at(-1);
    if (line === undefined || width > longestRow) {
      lines.push([piece]);
      width = piece.box.width;
    } else line.push(piece);
  }
  return lines;
}

/** Lines below each other. Lines of as many pieces stand as a table does, each piece below that of its place in the line above. */
function columnOf(name: string, lines: readonly (readonly Piece[])[], room: Gaps): Piece {
  const isTable = lines.length > 1 && lines.every((line) => line.length === firstOf(lines).length);
  const widths = isTable ? firstOf(lines).map((_, at) => Math.max(...lines.map((line) => halfWidth(line[at])))) : undefined;
  const joined = lines.map((line) => {
    if (widths === undefined) return beside(name, line, room.piece, 'centre');
    let x = 0;
    return joinPieces(
      name,
      line.map((piece, at) => {
        const half = widths[at] ?? 0;
        const placed = movePiece(piece, { x: snap(x + half - piece.centre.x), y: -snap(piece.centre.y) });
        x += snapUp(2 * half + room.piece);
        return placed;
      }),
    );
  });
  let y = 0;
  const middle = Math.max(...joined.map(({ box }) => box.width)) / 2;
  const placed = joined.map((line) => {
    const x = isTable ? 0 : snap(middle - line.box.width / 2 - line.box.x);
    const moved = movePiece(line, { x, y: snap(y - line.box.y) });
    y += snapUp(line.box.height + room.row);
    return moved;
  });
  return joinPieces(name, placed);
}

/** From the middle of a piece to its farther side. */
function halfWidth(piece: Piece | undefined): number {
  return piece === undefined ? 0 : Math.max(piece.centre.x - piece.box.x, piece.box.x + piece.box.width - piece.centre.x);
}

/** Pieces side by side, lined up by their centres or by the middles of their boxes. */
export function beside(name: string, pieces: readonly Piece[], gap: number, by: 'centre' | 'middle'): Piece {
  let x = 0;
  const placed = pieces.map((piece) => {
    const middle = by === 'centre' ? piece.centre.y : piece.box.y + piece.box.height / 2;
    const moved = movePiece(piece, { x: snap(x - piece.box.x), y: -snap(middle) });
    x += snapUp(piece.box.width + gap);
    return moved;
  });
  return joinPieces(name, placed);
}
