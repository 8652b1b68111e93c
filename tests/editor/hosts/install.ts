/** Installs a host once: staged beside its place under a lock, moved there whole, so that an interrupted install leaves nothing half done. */
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { withLock } from './lock.js';
import { hostsFolder } from './place.js';

/** True where the host `name` is installed. */
export function isInstalled(name: string): boolean {
  return existsSync(join(hostsFolder, name));
}

/** Gives the folder of the host `name`, after `fill` has filled it if it is not there yet. `size` tells the user how long that may take. */
export async function installOnce(name: string, size: string, fill: (folder: string) => Promise<void>): Promise<string> {
  const place = join(hostsFolder, name);
  if (isInstalled(name)) return place;
  const waiting = `Another run is installing ${name}; waiting until it is done …`;
  await withLock(join(hostsFolder, `${name}.lock`), { waiting }, async () => {
    // The process that had the lock before may have installed it.
    if (!isInstalled(name)) await install(name, size, fill);
  });
  return place;
}

async function install(name: string, size: string, fill: (folder: string) => Promise<void>): Promise<void> {
  removePartial(name);
  const staged = join(hostsFolder, `partial-${name}-${process.pid}`);
  mkdirSync(staged);
  writeFileSync(join(staged, 'package.json'), JSON.stringify({ name: 'editor-host', private: true }));
  console.log(`Installing ${name} into ${hostsFolder}, once; ${size} …`);
  const begin = performance.now();
  try {
    await fill(staged);
    // Two runs that took over a dead owner's lock at once may both come here; either folder is whole.
    if (!isInstalled(name)) renameSync(staged, join(hostsFolder, name));
  } finally {
    rmSync(staged, { recursive: true, force: true });
  }
  console.log(`Installed ${name} in ${((performance.now() - begin) / 1000).toFixed(0)} s.`);
}

/** Removes what interrupted runs left of this host; the name of each folder ends with the process that filled it. */
function removePartial(name: string): void {
  const start = `partial-${name}-`;
  for (const entry of readdirSync(hostsFolder).filter((entry) => entry.startsWith(start))) {
    if (isRunning(Number(entry.slice(start.length)))) continue;
    try {
      rmSync(join(hostsFolder, entry), { recursive: true, force: true, maxRetries: 3 });
    } catch (error) {
      // An npm that outlived its run may still be writing there. This run has a folder of its own.
      console.log(`Could not remove ${join(hostsFolder, entry)}, left by an interrupted run: ${(error as Error).message}`);
    }
  }
}

function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
