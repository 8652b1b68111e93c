// Bundles everything that runs into dist/: the command, the language server, the editor's extension.
import { mkdirSync, readFileSync, renameSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { drawingBundle, extensionBundles } from '../../extension/scripts/bundles.mjs';
import { noticesOf } from './notices.mjs';
import { bundle, ensureInstalled, root } from './setup.mjs';

/** The command, one file that starts fast and needs nothing beside it. */
const commandBundle = {
  entryPoints: ['server/command/main.ts'],
  outfile: bundle,
  platform: 'node',
  target: 'node20.19',
  format: 'esm',
  // Bundled CommonJS packages still ask for a `require` of Node's own modules.
  banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
  define: { LUGWORK_VERSION: JSON.stringify(JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).version) },
};

/** Writes the command's bundles alone. */
export async function buildCommand() {
  await writeBundles([commandBundle, drawingBundle]);
}

/** Writes every bundle, the command and the extension with its language server, and the notices of the packages in them. Returns the folders of those packages. */
export async function build() {
  const packages = await writeBundles([commandBundle, ...extensionBundles]);
  writeFileSync(join(dirname(bundle), 'THIRD-PARTY.txt'), noticesOf(root, packages));
  return packages;
}

/** Writes the bundles. They bear the time at which the build began, so a source that changes meanwhile counts as newer. Returns the folders of the packages in them. */
export async function writeBundles(bundles) {
  const began = new Date();
  const { build: esbuild } = await import('esbuild');
  const common = {
    absWorkingDir: root,
    bundle: true,
    write: false,
    metafile: true,
    minifySyntax: true,
    minifyWhitespace: true,
    legalComments: 'linked',
    logLevel: 'warning',
  };
  const made = await Promise.all(bundles.map((options) => esbuild({ ...common, ...options })));
  mkdirSync(dirname(bundle), { recursive: true });
  for (const file of made.flatMap(({ outputFiles }) => outputFiles)) {
    // Two builds may run at once; each moves its finished file into place.
    const waiting = `${file.path}.${process.pid}`;
    writeFileSync(waiting, file.contents);
    utimesSync(waiting, began, began);
    renameSync(waiting, file.path);
  }
  const inputs = made.flatMap(({ metafile }) => Object.keys(metafile.inputs));
  const folders = inputs
    .map((path) => /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0])
    .filter((folder) => folder !== undefined);
  return [...new Set(folders)].sort();
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
