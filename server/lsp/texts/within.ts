/** Where `use` may lead in an editor: the open folders. */

/** Why a file is not read that lies outside. */
export const outsideRefusal =
  'is outside the open folder: open a folder that contains both files, or allow it with the setting lugwork.use.outside';

/**
 * True where a file lies in one of the open folders, or in the folder of the file that uses it where that one lies in none. Addresses are
 * compared as their client writes them, with signs that may be written either way decoded.
 */
export function isWithinFolders(uri: string, from: string, folders: readonly string[]): boolean {
  const own = from.slice(0, from.lastIndexOf('/'));
  const isOpen = folders.some((folder) => isBelow(from, folder));
  return isBelow(uri, own) || (isOpen && folders.some((folder) => isBelow(uri, folder)));
}

function isBelow(uri: string, folder: string): boolean {
  return decoded(uri).startsWith(`${decoded(folder).replace(/\/+$/, '')}/`);
}

function decoded(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
}
