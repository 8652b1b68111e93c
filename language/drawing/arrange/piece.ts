/** Pieces: what is moved as one while a sheet is put together, from a single part to a cavity with all that it holds. */
import { type Box, joinBoxes, moved, type Point } from '../geometry.js';
import { boundsOf, type PlacedSymbol } from '../placed.js';

export interface Piece {
  /** Its row is sorted by this name. */
  readonly name: string;
  readonly symbols: readonly PlacedSymbol[];
  /** Outlines of the groups in it, by their ids. */
  readonly outlines: ReadonlyMap<string, Box>;
  /** All that it covers, labels too. */
  readonly box: Box;
  /** The point by which it is lined up with its neighbours: of a part its middle. */
  readonly centre: Point;
}

/** A piece of parts as they lie; it is lined up by the middle of the first. */
export function pieceOf(name: string, symbols: readonly PlacedSymbol[]): Piece {
  const box = boundsOf(symbols);
  const [first] = symbols;
  const centre = first === undefined ? { x: box.x, y: box.y } : moved(first.symbol.centre, first);
  return { name, symbols, outlines: new Map(), box, centre: { x: centre.x, y: centre.y } };
}

export function movePiece(piece: Piece, by: Point): Piece {
  return {
    ...piece,
    symbols: piece.symbols.map((symbol) => moved(symbol, by)),
    outlines: new Map([...piece.outlines].map(([id, box]) => [id, moved(box, by)])),
    box: moved(piece.box, by),
    centre: moved(piece.centre, by),
  };
}

/** Several pieces as they lie as one. */
export function joinPieces(name: string, pieces: readonly Piece[]): Piece {
  const box = joinBoxes(pieces.map((piece) => piece.box));
  return {
    name,
    symbols: pieces.flatMap((piece) => piece.symbols),
    outlines: new Map(pieces.flatMap((piece) => [...piece.outlines])),
    box,
    centre: { x: box.x + box.width / 2, y: box.y + box.height / 2 },
  };
}
