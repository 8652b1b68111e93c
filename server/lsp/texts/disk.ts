/** Files of the disk, for clients that do not answer for files themselves. */
import { realpathSync } from 'node:fs';
import { readdir, readFile, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { ServiceHost } from '../service.js';

/** Folders deeper than this, and more files than that, are nobody's circuits. */
const deepest = 12;
const most = 5000;
/** Bytes; more than the longest text can have. */
const largest = 4_000_000;

export const disk: ServiceHost = {
  readFile: async (uri) => {
    if (!uri.startsWith('file:')) return undefined;
    try {
      const path = fileURLToPath(uri);
      const status = await stat(path);
      // A pipe or a device may never end.
      if (!status.isFile() || status.size > largest) return undefined;
      return new TextDecoder('utf-8', { fatal: true }).decode(await readFile(path));
    } catch {
      // A file that is missing or unreadable is reported where it is used.
      return undefined;
    }
  },
  leadsTo: (uri) => (uri.startsWith('file:') ? realAddress(uri) : uri),
  findFiles: async (folder) => {
    const found: string[] = [];
    if (folder.startsWith('file:')) await collect(fileURLToPath(folder), deepest, found);
    return found;
  },
};

/** An address that is no path of this machine stays as it is. */
function realAddress(uri: string): string {
  try {
    return pathToFileURL(realOf(fileURLToPath(uri))).href;
  } catch {
    return uri;
  }
}

/** What a path leads to; for one that leads nowhere, what its folder leads to. */
function realOf(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return dirname(path) === path ? path : join(realOf(dirname(path)), basename(path));
  }
}

async function collect(folder: string, depth: number, found: string[]): Promise<void> {
  const entries = await entriesOf(folder);
  for (const entry of entries) {
    if (found.length >= most) return;
    const path = join(folder, entry.name);
    if (entry.isDirectory()) {
      const isHidden = entry.name.startsWith('.') || entry.name === 'node_modules';
      if (depth > 0 && !isHidden) await collect(path, depth - 1, found);
    } else if (entry.name.endsWith('.lug')) found.push(pathToFileURL(path).href);
  }
}

async function entriesOf(folder: string) {
  try {
    return await readdir(folder, { withFileTypes: true });
  } catch {
    // A folder that may not be read has nothing for us.
    return [];
  }
}
