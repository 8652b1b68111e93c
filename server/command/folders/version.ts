/** One version of many circuits: a commit, the working folder, or any folder. */
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Project } from '../../../language/project.js';
import type { Host } from '../command.js';
import { findFiles } from '../reading/files.js';
import { createIgnored } from '../reading/ignored.js';
import { filesAt, projectAt, shortName, topLevel, type NamedCommit } from '../reading/git.js';
import { diskProject } from '../reading/reading.js';
import { relativeTo } from '../reading/within.js';

export interface Version {
  /** What the user is shown: `main (1a2b3c4)`, `working folder`, `old`. */
  readonly name: string;
  /** The folder from which files are named: the repository's root, or the folder itself. */
  readonly root: string;
  /** The .lug files of the folder in question, from the root, with `/`. */
  readonly files: readonly string[];
  readonly project: Project;
}

export function uriIn({ root }: Pick<Version, 'root'>, path: string): string {
  return pathToFileURL(resolve(root, path)).href;
}

/** A folder as a commit has it. */
export function versionAt({ commit, name }: NamedCommit, folder: string): Version {
  const root = topLevel(folder);
  const short = shortName(commit, folder);
  const inside = relativeTo(root, folder);
  const project = projectAt(commit);
  const ignored = createIgnored((path) => project.text(uriIn({ root }, path)));
  const files = filesAt(commit, folder)
    .filter((path) => path.endsWith('.lug'))
    .map((path) => (inside === '' ? path : `${inside}/${path}`))
    .filter((path) => !ignored.isTool(path, inside) && !ignored.isPassedOver(path, inside));
  return {
    name: name.startsWith(short) || commit.startsWith(name) ? name : `${name} (${short})`,
    root,
    files,
    project,
  };
}

/** A folder of the disk; files are named from `root`. */
export function versionOnDisk(name: string, folder: string, root: string, host: Host): Version {
  const { files } = findFiles([folder], host.cwd);
  const found = files.filter(({ problem }) => problem === undefined);
  return { name, root, files: found.map(({ path }) => relativeTo(root, resolve(host.cwd, path))), project: diskProject(host) };
}
