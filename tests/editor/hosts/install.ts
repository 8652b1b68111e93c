/** Installs a host once: staged beside its place, moved there whole, so that an interrupted install leaves nothing half done. */
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { hostsFolder } from './place.js';

/** Gives the folder of the host `name`, after `fill` has filled it if it is not there yet. */
export async function installOnce(name: string, fill: (folder: string) => Promise<void>): Promise<string> {
  const place = join(hostsFolder, name);
  if (existsSync(place)) return place;
  mkdirSync(hostsFolder, { recursive: true });
  sweepStale();
  const staged = join(hostsFolder, `partial-${process.pid}-${name}`);
  rmSync(staged, { recursive: true, force: true });
  mkdirSync(staged);
  writeFileSync(join(staged, 'package.json'), JSON.stringify({ name: 'editor-host', private: true }));
  console.log(`Installing ${name} into ${hostsFolder} (once) …`);
  const begin = performance.now();
  try {
    await fill(staged);
    // Another run may have been quicker; its folder is as good as this one.
    if (!existsSync(place)) renameSync(staged, place);
  } finally {
    rmSync(staged, { recursive: true, force: true });
  }
  console.log(`Installed ${name} in ${((performance.now() - begin) / 1000).toFixed(0)} s.`);
  return place;
}

/** Removes what runs that were cut short left behind; an hour is more than any install takes. */
function sweepStale(): void {
  for (const name of readdirSync(hostsFolder)) {
    const path = join(hostsFolder, name);
    if (name.startsWith('partial-') && Date.now() - statSync(path).mtimeMs > 3_600_000)
      rmSync(path, { recursive: true, force: true });
  }
}
