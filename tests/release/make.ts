/** Both packages, made as `npm run package` makes them, into a folder of their own. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { spawnSync } from 'node:child_process';
import { readTarball, readZip } from '../harness/archives.js';
import { read, root } from '../harness/checkout.js';

export interface Packages {
  /** Path of the `.vsix`, and its files. */
  readonly vsix: string;
  readonly inVsix: ReadonlyMap<string, Buffer>;
  /** Path of the npm tarball, and its files. */
  readonly tarball: string;
  readonly inTarball: ReadonlyMap<string, Buffer>;
}

export const { version } = JSON.parse(read('package.json')) as { readonly version: string };

/** Runs the script of `npm run package` and reads what it made; what else it leaves in the folder is an error. */
export function makePackages(folder: string): Packages {
  const run = spawnSync(process.execPath, [join(root, 'server', 'scripts', 'package.mjs'), folder], { encoding: 'utf8' });
  if (run.status !== 0) throw new Error(`The packages were not made: ${run.stdout}${run.stderr}`);
  const [tarball, vsix, ...rest] = readdirSync(folder)
    .sort()
    .map((name) => join(folder, name));
  if (tarball === undefined || vsix === undefined || rest.length > 0) throw new Error('There are not two packages.');
  return { vsix, inVsix: readZip(readFileSync(vsix)), tarball, inTarball: readTarball(readFileSync(tarball)) };
}
