/** Where `use` may lead: the project of the file that is read. */
import { existsSync, realpathSync } from 'node:fs';
import { dirname, join, relative, isAbsolute } from 'node:path';

/**
 * True where a file lies in the repository of the file that uses it, in that file's own folder, or, where both do, below the folder in
 * which the command runs. Links count as what they lead to, so that none leads out.
 */
export function isWithinProject(path: string, from: string, cwd: string): boolean {
  const [target, user] = [realOf(path), realOf(from)];
  const own = dirname(user);
  const roots = [own, repositoryOf(own), ...(isBelow(user, realOf(cwd)) ? [realOf(cwd)] : [])];
  return roots.some((root) => root !== undefined && isBelow(target, root));
}

/** The nearest folder above that is a repository, itself among them. */
export function repositoryOf(folder: string): string | undefined {
  for (let at = folder; ; at = dirname(at)) {
    if (existsSync(join(at, '.git'))) return at;
    if (dirname(at) === at) return undefined;
  }
}

/** True where a path lies inside a folder; both are real paths. */
export function isBelow(path: string, folder: string): boolean {
  const relativePath = relative(folder, path);
  return relativePath !== '' && !isAbsolute(relativePath) && relativePath.split(/[/\\]/)[0] !== '..';
}

/** What a path leads to; for one that leads nowhere, what its folder leads to. */
export function realOf(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return dirname(path) === path ? path : join(realOf(dirname(path)), path.slice(dirname(path).length).replace(/^[/\\]/, ''));
  }
}

/** The way from a folder to a file or folder inside it, with `/`; links count as what they lead to. */
export function relativeTo(folder: string, path: string): string {
  return relative(realOf(folder), realOf(path)).replaceAll('\\', '/');
}
