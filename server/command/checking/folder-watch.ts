/** Folders of which one wants to know when something in them changes. Folders, not files: an editor that replaces a file leaves no trace on the old one. */
import { readdirSync, statSync, watch, type FSWatcher } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Host } from '../command.js';
import { isToolFolder } from '../reading/files.js';
import { describeError } from '../system-words.js';

/** Milliseconds for which nothing more may happen: an editor that saves writes, renames and sets times one after the other. */
const settling = 60;

export interface Bell {
  ring(): void;
  /** True where it has rung since `next` was last through. */
  hasRung(): boolean;
  /** Waits until it has rung and then been quiet for a moment. */
  next(): Promise<void>;
}

export function createBell(): Bell {
  let isRung = false;
  let wake: (() => void) | undefined;
  return {
    ring() {
      isRung = true;
      wake?.();
    },
    hasRung: () => isRung,
    async next() {
      if (!isRung) await new Promise<void>((resolve) => (wake = resolve));
      do {
        isRung = false;
        await new Promise((resolve) => setTimeout(resolve, settling));
      } while (isRung);
      wake = undefined;
    },
  };
}

export interface FolderWatch {
  /** Watches these from now on, and no others. */
  watch(folders: readonly string[]): void;
  close(): void;
}

/** Calls `ring` for each change. A folder that can't be watched is said on stderr, once. */
export function createFolderWatch(ring: () => void, host: Host): FolderWatch {
  const open = new Map<string, { readonly watcher: FSWatcher; readonly id: string }>();
  const refused = new Set<string>();
  const close = (folder: string): void => {
    open.get(folder)?.watcher.close();
    open.delete(folder);
  };
  const start = (folder: string): void => {
    const id = identityOf(folder);
    // A folder that was removed and made again is another one.
    if (open.get(folder)?.id === id) return;
    close(folder);
    try {
      const watcher = watch(folder, ring);
      watcher.on('error', () => {
        close(folder);
        ring();
      });
      open.set(folder, { watcher, id });
    } catch (error) {
      if (refused.has(folder)) return;
      refused.add(folder);
      host.err(`lugwork: ${folder} can’t be watched (${describeError(error)}); changes in it go unnoticed\n`);
    }
  };
  return {
    watch(folders) {
      const wanted = new Set(folders);
      for (const folder of [...open.keys()]) if (!wanted.has(folder)) close(folder);
      wanted.forEach(start);
    },
    close: () => [...open.keys()].forEach(close),
  };
}

/** The folders of these files, and these folders with all below them. Of what is not there, the nearest folder above that is. */
export function foldersOf(paths: readonly string[]): readonly string[] {
  return [
    ...new Set(
      paths.flatMap((path) => (isFolder(path) ? [nearestFolder(dirname(path)), ...below(path)] : [nearestFolder(dirname(path))])),
    ),
  ];
}

function below(folder: string): readonly string[] {
  try {
    const inside = readdirSync(folder, { withFileTypes: true }).filter(
      (entry) => entry.isDirectory() && !isToolFolder(entry.name),
    );
    return [folder, ...inside.flatMap(({ name }) => below(join(folder, name)))];
  } catch {
    // It went away, or may not be read; the check says so.
    return [];
  }
}

function nearestFolder(folder: string): string {
  return isFolder(folder) || dirname(folder) === folder ? folder : nearestFolder(dirname(folder));
}

function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
}

function identityOf(folder: string): string {
  const status = statSync(folder, { throwIfNoEntry: false });
  return status === undefined ? '' : `${status.dev}:${status.ino}`;
}

/** Another one whenever the file was written or replaced. */
export function stampOf(path: string): string {
  const status = statSync(path, { bigint: true, throwIfNoEntry: false });
  return status === undefined ? '' : [status.ino, status.size, status.mtimeNs, status.ctimeNs].join(':');
}
