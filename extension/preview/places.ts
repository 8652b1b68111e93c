/** From a place in the text to things of the drawing. */
import type { DrawnScene, FilePlace } from '../../server/protocol.js';

type Places = DrawnScene['places'];

export interface TextPlace {
  readonly line: number;
  readonly character: number;
}

/** What the place of a file is about: the things whose stretch of text around it is the shortest. A lug comes before the part that it is on. */
export function idsAt(places: Places, uri: string, place: TextPlace): string[] {
  const around = Object.entries(places).flatMap(([id, list]) =>
    list.filter((one) => one.uri === uri && holds(one, place)).map((one) => ({ id, one })),
  );
  const [first] = around.sort((a, b) => compareLength(a.one, b.one));
  if (first === undefined) return [];
  return [...new Set(around.filter(({ one }) => compareLength(one, first.one) === 0).map(({ id }) => id))].sort();
}

function holds({ start, end }: FilePlace, place: TextPlace): boolean {
  return !isBefore(place, start) && !isBefore(end, place);
}

function isBefore(a: TextPlace, b: TextPlace): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}

/** By lines, then by characters. */
function compareLength(a: FilePlace, b: FilePlace): number {
  const lines = (place: FilePlace): number => place.end.line - place.start.line;
  const characters = (place: FilePlace): number => place.end.character - place.start.character;
  return lines(a) - lines(b) || characters(a) - characters(b);
}
