/** What a folder that is named does not mean in the index or in a commit: files of tools, and what an ignore file names. */
import { ignoreFile, isToolFolder, namesIn } from './files.js';

/** `textAt` gives the text of an ignore file by its path from the root, where there is one. A file that is named is always meant. */
export function createIgnored(textAt: (path: string) => string | undefined): {
  isTool(path: string, scope: string): boolean;
  isPassedOver(path: string, scope: string): boolean;
} {
  const lists = new Map<string, ReadonlySet<string>>();
  const namesOf = (folder: string): ReadonlySet<string> => {
    const path = `${folder}${ignoreFile}`;
    const found = lists.get(folder) ?? namesIn(textAt(path) ?? '');
    lists.set(folder, found);
    return found;
  };
  const below = (path: string, scope: string): readonly string[] => path.slice(scope === '' ? 0 : scope.length + 1).split('/');
  return {
    isTool: (path, scope) => below(path, scope).slice(0, -1).some(isToolFolder),
    isPassedOver(path, scope) {
      if (path === scope) return false;
      let folder = scope === '' ? '' : `${scope}/`;
      return below(path, scope).some((name) => {
        const isNamed = namesOf(folder).has(name);
        folder = `${folder}${name}/`;
        return isNamed;
      });
    },
  };
}
