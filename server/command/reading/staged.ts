/** The circuits that a commit of what is staged would change, as the index has them and all that they use. */
import { existsSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { resolveUse } from '../../../language/circuit/index.js';
import { createProject, type Project } from '../../../language/project.js';
import { CannotRun, type Host } from '../command.js';
import { describeSize } from '../system-words.js';
import { ignoreFile } from './files.js';
import { createIgnored } from './ignored.js';
import { blobsOf, type ChangedFile, indexEntries, stagedChanges, topLevel } from './git.js';
import { decodeText, largestFile, type ReadFiles, type SourceFile, type Text } from './reading.js';
import { isBelow, realOf } from './within.js';

export interface StagedFiles extends ReadFiles {
  /** In which every file is read as the index has it. */
  readonly project: Project;
  /** The text of a file as the index has it, by its path on the disk. */
  readonly textAt: (path: string) => Text | { readonly problem: string };
}

/**
 * The circuits that are staged as added, modified or renamed, and those that use one of them or one that is gone, directly or through another.
 * Operands, files or folders, limit which of them are meant. Throws `CannotRun` where git, the repository or an operand is missing.
 */
export function readStaged(operands: readonly string[], host: Host): StagedFiles {
  const root = realOf(topLevel(host.cwd));
  const index = createIndex(root);
  const project = createProject({
    read: (uri) => (uri.startsWith('file:') ? textOf(index.textAt(fileURLToPath(uri))) : undefined),
    refuses: (uri) => (uri.startsWith('file:') ? index.refusalOf(fileURLToPath(uri)) : undefined),
  });
  const scopes = operands.map((operand) => scopeOf(operand, root, index, host));
  const concerned = concernedBy(index.changes, index.circuits, root, project);
  const { paths, textAt } = index;
  const ignored = createIgnored((path) => (paths.has(path) ? textOf(textAt(join(root, path))) : undefined));
  const files: SourceFile[] = [];
  const passedOver: string[] = [];
  let isComplete = true;
  for (const path of index.circuits.filter((one) => concerned.has(one))) {
    const within = (scopes.length === 0 ? [''] : scopes).filter(
      (scope) => scope === '' || scope === path || path.startsWith(`${scope}/`),
    );
    if (within.length === 0 || within.every((scope) => ignored.isTool(path, scope))) continue;
    const shown = relative(realOf(host.cwd), join(root, path)).replaceAll('\\', '/');
    if (within.every((scope) => ignored.isPassedOver(path, scope))) {
      passedOver.push(shown);
      continue;
    }
    const read = index.textAt(join(root, path));
    if ('text' in read) files.push({ ...read, path: shown, uri: pathToFileURL(join(root, path)).href });
    else {
      isComplete = false;
      host.err(`lugwork: ${shown}: ${read.problem}\n`);
    }
  }
  return { files, isComplete, passedOver, project, textAt: index.textAt };
}

interface Index {
  /** What is staged. */
  readonly changes: readonly ChangedFile[];
  /** The paths of its .lug files from the root. */
  readonly circuits: readonly string[];
  readonly paths: ReadonlySet<string>;
  readonly textAt: StagedFiles['textAt'];
  /** Why a file is not read, as the end of a sentence about it. */
  refusalOf(path: string): string | undefined;
}

function createIndex(root: string): Index {
  const changes = stagedChanges(root);
  const entries = new Map(indexEntries(root).map((entry) => [entry.path, entry]));
  const isCircuit = (path: string): boolean => path.endsWith('.lug');
  const circuits = [...entries.values()].filter(({ path, isLink }) => isCircuit(path) && !isLink).map(({ path }) => path);
  const wanted = [...entries.values()].filter(({ path }) => isCircuit(path) || path.endsWith(ignoreFile));
  const isConcerned = changes.some(({ before = '', after = '' }) => isCircuit(before) || isCircuit(after));
  const blobs = isConcerned ? blobsOf([...new Set(wanted.map(({ blob }) => blob))], root) : new Map<string, Buffer>();
  const textAt: Index['textAt'] = (path) => {
    const entry = entries.get(fromRoot(path, root));
    const bytes = entry === undefined ? undefined : blobs.get(entry.blob);
    if (entry === undefined || bytes === undefined) return { problem: 'the index has no such file' };
    if (entry.isUnmerged) return { problem: 'this file has a merge conflict that is not resolved' };
    if (entry.isLink) return { problem: 'this is a link, and links of the index are not followed' };
    return bytes.length > largestFile ? { problem: `this file ${describeSize(bytes.length, largestFile)}` } : decodeText(bytes);
  };
  return {
    changes: isConcerned ? changes : [],
    circuits,
    paths: new Set(entries.keys()),
    textAt,
    refusalOf(path) {
      if (!isBelow(path, root)) return 'is outside the repository, so the index does not have it';
      if (!entries.has(fromRoot(path, root)))
        return existsSync(path) ? 'is in the working folder but not in the index; `git add` stages it' : undefined;
      const read = textAt(path);
      return 'problem' in read ? `is not read: ${read.problem}` : undefined;
    },
  };
}

function textOf(read: Text | { readonly problem: string }): string | undefined {
  return 'text' in read ? read.text : undefined;
}

function fromRoot(path: string, root: string): string {
  return relative(root, path).replaceAll('\\', '/');
}

/** An operand as a path from the root; empty for the root itself. */
function scopeOf(operand: string, root: string, { paths, changes }: Index, host: Host): string {
  const full = realOf(resolve(host.cwd, operand));
  if (full !== root && !isBelow(full, root)) throw new CannotRun(`${operand} is outside the repository ${root}`);
  const scope = fromRoot(full, root);
  const isMeant = (path: string | undefined): boolean => path !== undefined && (path === scope || path.startsWith(`${scope}/`));
  const isKnown = [...paths].some(isMeant) || changes.some(({ before }) => isMeant(before));
  if (scope !== '' && !isKnown && !existsSync(full)) throw new CannotRun(`${operand}: there is no such file or folder`);
  return scope;
}

/** The circuits that are changed, and those that use a changed, moved or deleted one however indirectly. */
function concernedBy(
  changes: readonly ChangedFile[],
  circuits: readonly string[],
  root: string,
  project: Project,
): ReadonlySet<string> {
  const concerned = new Set(changes.flatMap(({ before, after }) => [before, after]).filter((path) => path !== undefined));
  if (concerned.size === 0) return concerned;
  const users = new Map<string, string[]>();
  for (const path of circuits) {
    const uri = pathToFileURL(join(root, path)).href;
    for (const statement of project.tree(uri)?.statements ?? []) {
      const used = statement.kind === 'use' ? resolveUse(uri, statement.path.text) : undefined;
      if (used === undefined) continue;
      const target = fromRoot(fileURLToPath(used), root);
      users.set(target, [...(users.get(target) ?? []), path]);
    }
  }
  // A set that grows while it is walked: each new one's users follow.
  for (const path of concerned) for (const user of users.get(path) ?? []) concerned.add(user);
  return concerned;
}
