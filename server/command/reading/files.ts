/** From the operands to the .lug files they mean: folders are walked, each file comes once, in a fixed order. */
import { readFileSync, readdirSync, realpathSync, statSync, type Stats } from 'node:fs';
import { resolve } from 'node:path';
import { linesOf } from '../../../language/grammar/index.js';
import { kindOf, reason, describeError, describeSize } from '../system-words.js';
import { isBelow, realOf } from './within.js';

/** A file as the user named it (the path is shown), or why there is none. */
export interface FoundFile {
  readonly path: string;
  readonly problem?: string;
}

export interface Found {
  readonly files: readonly FoundFile[];
  /** What a `.lugignore` keeps out, files and folders. */
  readonly passedOver: readonly string[];
  /** Links that lead out of the folder that was named; they are not followed. */
  readonly leadingOut: readonly string[];
}

/** In a folder, the names of its files and folders that are passed over where a folder above is meant, one a line; `#` begins a comment. */
export const ignoreFile = '.lugignore';

/** The files that the operands mean, in the order of the operands, a folder's own sorted by path. */
export function findFiles(operands: readonly string[], cwd: string): Found {
  const seen = new Set<string>();
  const [passedOver, leadingOut]: [string[], string[]] = [[], []];
  const files = operands.flatMap((operand) => {
    const full = resolve(cwd, operand);
    const status = statusOf(full);
    if (typeof status === 'string') return [{ path: operand, problem: status }];
    if (!status.isDirectory()) return once(full, seen) ? [{ path: operand }] : [];
    const isRepeated = seen.has(realpathSync(full));
    const inside: FoundFile[] = [];
    const count = enter(operand, { cwd, root: realpathSync(full), seen, passedOver, leadingOut }, inside);
    inside.sort((a, b) => (a.path < b.path ? -1 : 1));
    return count > 0 || inside.length > 0 || isRepeated
      ? inside
      : [{ path: operand, problem: 'this folder contains no .lug files' }];
  });
  return { files, passedOver, leadingOut };
}

interface Walk {
  readonly cwd: string;
  /** The real path of the folder that was named. */
  readonly root: string;
  /** Real paths met so far, files and folders. */
  readonly seen: Set<string>;
  readonly passedOver: string[];
  readonly leadingOut: string[];
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
      : { names: new Set<string>() };
  } catch (error) {
    found.push({ path: folder, problem: `this folder can’t be read (${describeError(error)})` });
    return 0;
  }
  if ('problem' in ignored) {
    // Without it nobody knows what is meant to be left alone.
    found.push({ path: joined(folder, ignoreFile), problem: ignored.problem });
    return 0;
  }
  entries.sort((a, b) => Number(a.isSymbolicLink()) - Number(b.isSymbolicLink()));
  let count = 0;
  for (const entry of entries) {
    const path = joined(folder, entry.name);
    const full = resolve(walk.cwd, path);
    const status = entry.isSymbolicLink() ? statusOf(full) : entry;
    const isFolder = typeof status !== 'string' && status.isDirectory();
    if (isFolder ? isToolFolder(entry.name) : !entry.name.endsWith('.lug')) continue;
    if (!isFolder) count += 1;
    if (ignored.names.has(entry.name)) walk.passedOver.push(path);
    else if (typeof status === 'string') found.push({ path, problem: 'the target of this link does not exist' });
    else if (entry.isSymbolicLink() && leadsOut(full, walk.root)) walk.leadingOut.push(path);
    else if (isFolder) count += enter(path, walk, found);
    else if (once(full, walk.seen)) found.push({ path });
  }
  return count;
}

/** Folders of tools, not of circuits. */
export function isToolFolder(name: string): boolean {
  return name === 'node_modules' || name.startsWith('.');
}

function leadsOut(link: string, root: string): boolean {
  const real = realpathSync(link);
  return real !== root && !isBelow(real, root);
}

/** Names that fill more than this are nobody's list. Bytes. */
const longestList = 1_000_000;

function ignoredNames(path: string): { readonly names: ReadonlySet<string> } | { readonly problem: string } {
  const status = statSync(path);
  // A pipe or a device may never end.
  if (!status.isFile()) return { problem: `this is ${kindOf(status)}, not a file` };
  if (status.size > longestList) return { problem: `this file ${describeSize(status.size, longestList)}` };
  return { names: namesIn(readFileSync(path, 'utf8')) };
}

/** The names in the text of an ignore file. */
export function namesIn(text: string): ReadonlySet<string> {
  return new Set(
    linesOf(text)
      .map((line) => line.replace(/#.*/, '').trim().replace(/\/$/, ''))
      .filter(Boolean),
  );
}

function joined(folder: string, name: string): string {
  return folder === '.' ? name : `${folder.replace(/[/\\]+$/, '')}/${name}`;
}

function once(path: string, seen: Set<string>): boolean {
  const real = realOf(path);
  if (seen.has(real)) return false;
  seen.add(real);
  return true;
}

/** What a path leads to, or why that is not known. */
function statusOf(path: string): Stats | string {
  try {
    return statSync(path);
  } catch (error) {
    const isMissing = ['ENOENT', 'ENOTDIR'].includes(reason(error));
    return isMissing ? 'there is no such file or folder' : `this can’t be read (${describeError(error)})`;
  }
}
