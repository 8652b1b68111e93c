/** From the operands to the .lug files they mean: folders are walked, each file comes once, in a fixed order. */
import { readFileSync, readdirSync, realpathSync, statSync, type Stats } from 'node:fs';
import { resolve } from 'node:path';

/** A file as the user named it (the path is shown), or why there is none. */
export interface FoundFile {
  readonly path: string;
  readonly problem?: string;
}

export interface Found {
  readonly files: readonly FoundFile[];
  /** What a `.lugignore` keeps out, files and folders. */
  readonly passedOver: readonly string[];
}

/** In a folder, the names of its files and folders that are passed over where a folder above is meant, one a line; `#` begins a comment. */
export const ignoreFile = '.lugignore';

/** The files that the operands mean, in the order of the operands, a folder's own sorted by path. */
export function findFiles(operands: readonly string[], cwd: string): Found {
  const walk: Walk = { cwd, seen: new Set(), passedOver: [] };
  const files = operands.flatMap((operand) => {
    const status = statusOf(resolve(cwd, operand));
    if (status === undefined) return [{ path: operand, problem: 'there is no such file or folder' }];
    if (!status.isDirectory()) return once(resolve(cwd, operand), walk.seen) ? [{ path: operand }] : [];
    const isRepeated = walk.seen.has(realpathSync(resolve(cwd, operand)));
    const inside: FoundFile[] = [];
    const count = enter(operand, walk, inside);
    inside.sort((a, b) => (a.path < b.path ? -1 : 1));
    return count > 0 || inside.length > 0 || isRepeated
      ? inside
      : [{ path: operand, problem: 'there is no .lug file in this folder' }];
  });
  return { files, passedOver: walk.passedOver };
}

interface Walk {
  readonly cwd: string;
  /** Real paths met so far, files and folders. */
  readonly seen: Set<string>;
  readonly passedOver: string[];
}

/** Files and real folders before links, so that a linked folder's files bear their own path; a loop of links ends where it began. Returns how many .lug files it met, those found before and those passed over among them. */
function enter(folder: string, walk: Walk, found: FoundFile[]): number {
  let entries;
  let ignored;
  try {
    if (!once(resolve(walk.cwd, folder), walk.seen)) return 0;
    entries = readdirSync(resolve(walk.cwd, folder), { withFileTypes: true });
    ignored = entries.some(({ name }) => name === ignoreFile)
      ? ignoredNames(resolve(walk.cwd, folder, ignoreFile))
      : new Set<string>();
  } catch (error) {
    found.push({ path: folder, problem: `this folder cannot be read (${said(error)})` });
    return 0;
  }
  entries.sort((a, b) => Number(a.isSymbolicLink()) - Number(b.isSymbolicLink()));
  let count = 0;
  for (const entry of entries) {
    const path = joined(folder, entry.name);
    const full = resolve(walk.cwd, path);
    const status = entry.isSymbolicLink() ? statusOf(full) : entry;
    const isFolder = status?.isDirectory() ?? false;
    if (isFolder ? isToolFolder(entry.name) : !entry.name.endsWith('.lug')) continue;
    if (!isFolder) count += 1;
    if (ignored.has(entry.name)) walk.passedOver.push(path);
    else if (isFolder) count += enter(path, walk, found);
    else if (status === undefined) found.push({ path, problem: 'this link leads nowhere' });
    else if (once(full, walk.seen)) found.push({ path });
  }
  return count;
}

/** Folders of tools, not of circuits. */
function isToolFolder(name: string): boolean {
  return name === 'node_modules' || name.startsWith('.');
}

function ignoredNames(path: string): Set<string> {
  const lines = readFileSync(path, 'utf8').split(/\r?\n/);
  return new Set(lines.map((line) => line.replace(/#.*/, '').trim().replace(/\/$/, '')).filter(Boolean));
}

function joined(folder: string, name: string): string {
  return folder === '.' ? name : `${folder.replace(/[/\\]+$/, '')}/${name}`;
}

function once(path: string, seen: Set<string>): boolean {
  const real = realpathSync(path);
  if (seen.has(real)) return false;
  seen.add(real);
  return true;
}

function statusOf(path: string): Stats | undefined {
  try {
    return statSync(path);
  } catch {
    return undefined;
  }
}

/** Why the operating system refused, in words where they are known; they fit behind “cannot be read”. */
export function said(error: unknown): string {
  const word = reason(error);
  return word === 'EACCES' || word === 'EPERM' ? 'its permissions do not allow it' : word;
}

/** The operating system's own word for what went wrong (`EACCES`). */
export function reason(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? String(error);
}
