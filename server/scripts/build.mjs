// Bundles the command into one file, dist/lugwork.mjs, so that it starts fast and needs nothing beside it.
import { mkdirSync, readFileSync, renameSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bundle, ensureInstalled, root } from './setup.mjs';

/** Writes the bundle. It bears the time at which the build began, so a source that changes meanwhile counts as newer. */
export async function build() {
  const began = new Date();
  const { build: esbuild } = await import('esbuild');
  const made = await esbuild({
    absWorkingDir: root,
    entryPoints: ['server/command/main.ts'],
    outfile: bundle,
    bundle: true,
    write: false,
    platform: 'node',
    target: 'node20.19',
    format: 'esm',
    minifySyntax: true,
    minifyWhitespace: true,
    legalComments: 'linked',
    // Bundled CommonJS packages still ask for a `require` of Node's own modules.
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
    define: { LUGWORK_VERSION: JSON.stringify(JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).version) },
    logLevel: 'warning',
  });
  mkdirSync(dirname(bundle), { recursive: true });
  for (const file of made.outputFiles) {
    // Two builds may run at once; each moves its finished file into place.
    const waiting = `${file.path}.${process.pid}`;
    writeFileSync(waiting, file.contents);
    utimesSync(waiting, began, began);
    renameSync(waiting, file.path);
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    ensureInstalled();
    await build();
  } catch (error) {
    console.error(error.message);
    process.exitCode = 1;
  }
}
