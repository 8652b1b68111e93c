/** Where a text that git has laid aside comes from, so that the files that it uses are read as they were beside it. */
import { statSync } from 'node:fs';
import { basename, join, relative } from 'node:path';
import { blobOf, hashesAt, indexEntries, newestTips, shortName, textChanges, theIndex } from './git.js';

/** The state of a repository in which a file has some text. */
export interface Origin {
  /** A commit, or the index; absent where it is the working folder. */
  readonly commit?: string;
  /** The name to show: `commit 1a2b3c4`. */
  readonly name: string;
  /** Where the file lies in it, on the disk whether or not it is there now. */
  readonly path: string;
}

/** What is known of a file's place: its path, or its name and where files of that name lie now. */
export type Place = { readonly path: string } | { readonly name: string; readonly homes: readonly string[] };

/** How many commits that change the file, and how many tips of branches, are looked at. */
const most = { commits: 400, tips: 100 };

/**
 * The state in which a file has the text with this hash: the working folder, else the index, else the newest commit, of HEAD first and then of all
 * branches and tags. `root` is the repository's, a real path, as those of the place are. `undefined` where it is not found. Throws `CannotRun`
 * where git can't be run.
 */
export function originOf(blob: string, place: Place, root: string): Origin | undefined {
  const homes = 'path' in place ? [place.path] : place.homes;
  const home = homes.find((path) => isFile(path) && blobOf(path, fromRoot(path, root), root) === blob);
  if (home !== undefined) return { name: 'the working folder', path: home };
  const isMeant = (path: string): boolean =>
    'path' in place ? path === fromRoot(place.path, root) : basename(path) === place.name;
  const staged = indexEntries(root).find((entry) => entry.blob === blob && !entry.isUnmerged && isMeant(entry.path));
  if (staged !== undefined) return { commit: theIndex, name: 'the index', path: join(root, staged.path) };
  const name = 'path' in place ? basename(place.path) : place.name;
  const known = homes.map((path) => fromRoot(path, root));
  for (const revisions of ['HEAD', '--all'] as const) {
    const changes = textChanges(revisions, name, most.commits, root).filter(({ path }) => isMeant(path));
    const paths = [...new Set([...known, ...changes.map(({ path }) => path)])];
    const tips = revisions === 'HEAD' ? ['HEAD'] : newestTips(most.tips, root);
    const found = atTip(blob, tips, paths, root) ?? inHistory(blob, changes);
    if (found !== undefined)
      return { commit: found.commit, name: `commit ${shortName(found.commit, root)}`, path: join(root, found.path) };
  }
  return undefined;
}

interface Found {
  readonly commit: string;
  readonly path: string;
}

/** The first of the tips that has the text at one of the paths. */
function atTip(blob: string, tips: readonly string[], paths: readonly string[], root: string): Found | undefined {
  const pairs = tips.flatMap((commit) => paths.map((path) => ({ commit, path })));
  const at = hashesAt(
    pairs.map(({ commit, path }) => `${commit}:${path}`),
    root,
  ).indexOf(blob);
  return pairs[at];
}

/** The newest commit before the text was replaced, or else the one that brought it. */
function inHistory(blob: string, changes: ReturnType<typeof textChanges>): Found | undefined {
  const change = changes.find(({ before, after, parent }) => after === blob || (before === blob && parent !== undefined));
  if (change === undefined) return undefined;
  const { commit, parent, path, after } = change;
  return { commit: after === blob ? commit : (parent ?? commit), path };
}

function isFile(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isFile() === true;
}

function fromRoot(path: string, root: string): string {
  return relative(root, path).replaceAll('\\', '/');
}
