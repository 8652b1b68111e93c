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
  const ids = [...new Set(around.filter(({ one }) => compareLength(one, first.one) === 0).map(({ id }) => id))].sort();
  // A lug that the text names nowhere stands where its part does, and is not meant.
  const isPart = ids.some((id) => id.startsWith('part:'));
  return isPart ? ids.filter((id) => !id.startsWith('lug:')) : ids;
}

/** The first lug that a line names, else the first part. */
export function idsOnLine(places: Places, uri: string, line: number): string[] {
  const here = Object.entries(places).flatMap(([id, list]) =>
    list.filter((one) => one.uri === uri && one.start.line === line && one.end.line === line).map((one) => ({ id, one })),
  );
  const rank = (id: string): number => ['lug:', 'part:'].findIndex((kind) => id.startsWith(kind));
  const named = here.filter(({ id }) => rank(id) >= 0);
  const [first] = named.sort((a, b) => rank(a.id) - rank(b.id) || a.one.start.character - b.one.start.character);
  return first === undefined ? [] : [first.id];
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
