/** Where the editor hosts, the staged extension and the short-lived folders of a run lie. */
import { existsSync, mkdirSync, mkdtempSync, readFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The checkout: the nearest folder upwards whose package is this one, so that the bundled harness finds it as well. */
export const root = findRoot(dirname(fileURLToPath(import.meta.url)));

/** Installed hosts, shared by all runs; another folder may be named where several checkouts share one machine. */
export const hostsFolder = process.env.LUGWORK_EDITOR_HOSTS ?? join(root, '.cache', 'editor-hosts');

/** What a run builds: the staged extension, the suite's bundle, result files. */
export const workFolder = join(root, '.cache', 'editor');

/** Pictures of the driven screens. */
export const screensFolder = join(root, 'tests', 'editor', 'screens');

/** A new folder with a short path: the sockets in it have a limit of 107 characters. */
export function createRunFolder(): string {
  const base = tmpdir().length <= 20 ? tmpdir() : '/tmp';
  mkdirSync(base, { recursive: true });
  return mkdtempSync(join(base, 'lw-'));
}

/** A port of the loopback address that was free a moment ago. */
export function findFreePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() =>
        address !== null && typeof address === 'object' ? resolve(address.port) : reject(new Error('no port was given')),
      );
    });
  });
}

function findRoot(start: string): string {
  for (let folder = start; folder !== dirname(folder); folder = dirname(folder)) {
    const manifest = join(folder, 'package.json');
    if (existsSync(manifest) && (JSON.parse(readFileSync(manifest, 'utf8')) as { name?: string }).name === 'lugwork')
      return folder;
  }
  throw new Error(`no checkout of lugwork above ${start}`);
}
