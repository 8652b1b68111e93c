/** From the operands to the .lug files they mean: folders are walked, each file comes once, in a fixed order. */
import { readdirSync, realpathSync, statSync, type Stats } from 'node:fs';
import { resolve } from 'node:path';

/** A file as the user named it (the path is shown), or why there is none. */
export interface FoundFile {
  readonly path: string;
  readonly problem?: string;
}

/** The files that the operands mean, in the order of the operands, a folder's own sorted by path. */
export function findFiles(operands: readonly string[], cwd: string): FoundFile[] {
  const seen = new Set<string>();
  return operands.flatMap((operand) => {
    const status = statusOf(resolve(cwd, operand));
    if (status === undefined) return [{ path: operand, problem: 'there is no such file or folder' }];
    if (!status.isDirectory()) return once(resolve(cwd, operand), seen) ? [{ path: operand }] : [];
    const isRepeated = seen.has(realpathSync(resolve(cwd, operand)));
    const inside: FoundFile[] = [];
    const count = walk(operand, cwd, seen, inside);
    inside.sort((a, b) => (a.path < b.path ? -1 : 1));
    return count > 0 || inside.length > 0 || isRepeated
      ? inside
      : [{ path: operand, problem: 'there is no .lug file in this folder' }];
  });
}

/** Files and real folders before links, so that a linked folder's files bear their own path; a loop of links ends where it began. Returns how many .lug files it met, those found before among them. */
function walk(folder: string, cwd: string, seen: Set<string>, found: FoundFile[]): number {
  let entries;
  try {
    if (!once(resolve(cwd, folder), seen)) return 0;
    entries = readdirSync(resolve(cwd, folder), { withFileTypes: true });
  } catch (error) {
    found.push({ path: folder, problem: `this folder cannot be read (${reason(error)})` });
    return 0;
  }
  entries.sort((a, b) => Number(a.isSymbolicLink()) - Number(b.isSymbolicLink()));
  let count = 0;
  for (const entry of entries) {
    const path = joined(folder, entry.name);
    const status = entry.isSymbolicLink() ? statusOf(resolve(cwd, path)) : entry;
    if (status?.isDirectory()) {
      if (!isPassedOver(entry.name)) count += walk(path, cwd, seen, found);
    } else if (entry.name.endsWith('.lug')) {
      count += 1;
      if (status === undefined) found.push({ path, problem: 'this link leads nowhere' });
      else if (once(resolve(cwd, path), seen)) found.push({ path });
    }
  }
  return count;
}

/** Folders of tools, not of circuits. */
function isPassedOver(name: string): boolean {
  return name === 'node_modules' || name.startsWith('.');
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

/** The operating system's own word for what went wrong (`EACCES`). */
export function reason(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? String(error);
}
