/** Documents that lie inside the server: the standard parts and the pages of the rules, each under a `lugwork:` address. */
import { isLibraryUri, libraryText } from '../../../language/parts/index.js';
import { PAGES } from '../generated/pages.js';

/** The text under the address, undefined where there is none. */
export function builtInText(uri: string): string | undefined {
  return libraryText(uri) ?? (Object.hasOwn(PAGES, uri) ? PAGES[uri] : undefined);
}

/** True for what nobody can change. */
export function isBuiltIn(uri: string): boolean {
  return isLibraryUri(uri) || Object.hasOwn(PAGES, uri);
}

/** The address of a rule's page, undefined for a rule without one (the faults of the text itself). */
export function rulePage(rule: string): string | undefined {
  const uri = `lugwork:/rules/${rule}.md`;
  return Object.hasOwn(PAGES, uri) ? uri : undefined;
}
