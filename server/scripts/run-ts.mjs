// Runs a TypeScript file of the project: `node server/scripts/run-ts.mjs FILE [ARGUMENT…]`; also loads one as a module for other scripts.
import { mkdirSync, rmSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ensureInstalled, root } from './setup.mjs';

/** Bundles a TypeScript file, the installed packages left outside, and imports the result. */
export async function importTs(file) {
  ensureInstalled();
  const { build } = await import('esbuild');
  const folder = join(root, '.cache', 'run');
  mkdirSync(folder, { recursive: true });
  const outfile = join(folder, `${basename(file, '.ts')}.${process.pid}.mjs`);
  await build({
    absWorkingDir: root,
    entryPoints: [file],
    outfile,
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    sourcemap: 'inline',
    logLevel: 'warning',
  });
  try {
    return await import(pathToFileURL(outfile).href);
  } finally {
    rmSync(outfile, { force: true });
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(resolve(process.argv[1])).href) {
  try {
    await importTs(process.argv[2]);
  } catch (error) {
    console.error(error);
    process.exitCode = 1;
  }
}
