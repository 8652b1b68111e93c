/** The standard library of parts, written in the language itself: its text, by address, for stages that have no file system. */
import { LIBRARY } from './generated/library.js';

/** Every address in the standard library begins with this. */
export const LIBRARY_PREFIX = 'lugwork:/parts/';

/** Addresses of the library's files (`lugwork:/parts/levers.lug`), in the order in which they are read. */
export const libraryUris: readonly string[] = Object.keys(LIBRARY);

/** The text of a library file, `undefined` for any other address. */
export function libraryText(uri: string): string | undefined {
  return Object.hasOwn(LIBRARY, uri) ? LIBRARY[uri] : undefined;
}

/** True for an address of the standard library. */
export function isLibraryUri(uri: string): boolean {
  return uri.startsWith(LIBRARY_PREFIX);
}
