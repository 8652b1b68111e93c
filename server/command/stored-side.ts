/** A circuit whose text git has written to a temporary file, read with the files that it used where that text comes from. */
import { relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createProject, type Project } from '../../language/project.js';
import { CannotRun, type Host } from './command.js';
import { findFiles } from './reading/files.js';
import { blobOf, projectAt, topLevel } from './reading/git.js';
import { projectWith, uriOf } from './reading/reading.js';
import { originOf, type Origin, type Place } from './reading/stored.js';
import { realOf } from './reading/within.js';

export interface StoredText {
  readonly uri: string;
  readonly project: Project;
  /** Which used files are read from elsewhere than the working folder, or that this is not known: a sentence each, without its full stop. */
  readonly notes: readonly string[];
}

/** The text of the file at that path, with its hash in git (of zeros where git has not asked for one, as for a file of the working folder). */
export function textAt(path: string, text: string, blob: string, host: Host): StoredText {
  const uri = uriOf(path, host.cwd);
  const disk = { uri, project: projectWith(uri, text, host), notes: [] };
  if (!/[1-9a-f]/.test(blob) || !usesFiles(disk)) return disk;
  return withOrigin(disk, text, { path: realOf(resolve(host.cwd, path)) }, () => blob, host);
}

/** The text of a file of which only the name is that of the circuit. Where no text of that name is known to git, it lies where the only file of that name does. */
export function textNamed(file: string, name: string, text: string, host: Host): StoredText {
  const homes = findFiles(['.'], host.cwd)
    .files.map(({ path }) => path)
    .filter((path) => path === name || path.endsWith(`/${name}`));
  const [home, ...more] = homes;
  const uri = uriOf(home !== undefined && more.length === 0 ? home : file, host.cwd);
  const disk = { uri, project: projectWith(uri, text, host), notes: [] };
  if (!usesFiles(disk)) return disk;
  const place = { name, homes: homes.map((path) => realOf(resolve(host.cwd, path))) };
  return withOrigin(
    disk,
    text,
    place,
    (root) => blobOf(file, relative(root, place.homes[0] ?? resolve(root, name)).replaceAll('\\', '/'), root),
    host,
  );
}

function usesFiles({ uri, project }: StoredText): boolean {
  return project.tree(uri)?.statements.some(({ kind }) => kind === 'use') === true;
}

function withOrigin(disk: StoredText, text: string, place: Place, blobIn: (root: string) => string, host: Host): StoredText {
  let origin: Origin | undefined;
  try {
    const root = realOf(topLevel(host.cwd));
    origin = originOf(blobIn(root), place, root);
  } catch (error) {
    if (!(error instanceof CannotRun)) throw error;
    return {
      ...disk,
      notes: [`used files are read from the working folder, because their own version is not known: ${error.message}`],
    };
  }
  if (origin === undefined)
    return { ...disk, notes: ['used files are read from the working folder, because no commit was found that has this text'] };
  const { commit, name, path } = origin;
  const uri = uriOf(path, host.cwd);
  if (commit === undefined) return { uri, project: projectWith(uri, text, host), notes: [] };
  const stored = projectAt(commit);
  const project = createProject({ read: (asked) => (asked === uri ? text : stored.text(asked)) });
  const now = projectWith(uri, text, host);
  const used = project.circuit(uri)?.files ?? [];
  const differing = used.filter((file) => file.startsWith('file:') && project.text(file) !== now.text(file));
  const shown = differing.map((file) => relative(realOf(host.cwd), fileURLToPath(file)).replaceAll('\\', '/'));
  return { uri, project, notes: shown.map((file) => `${file} is read as ${name} has it`) };
}
