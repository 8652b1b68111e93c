/** Lays out the extension as its package holds it, and the suite beside it: a file left out of the package is missed here already. */
import { join } from 'node:path';
import { build } from 'esbuild';
import { root } from './place.js';
import { run } from './process.js';

/** Builds the extension and puts what its package would hold into `folder`. */
export async function stageExtension(folder: string): Promise<void> {
  await run('node', [join(root, 'extension', 'scripts', 'package.mjs'), '--stage', folder], { cwd: root });
}

/** Builds the package and gives its path in `folder`. */
export async function packExtension(folder: string): Promise<string> {
  const vsix = join(folder, 'lugwork.vsix');
  await run('node', [join(root, 'extension', 'scripts', 'package.mjs'), vsix], { cwd: root });
  return vsix;
}

/** Bundles the suite into one CommonJS file beside the staged extension and gives its path. Tests whose name holds `only` will run. */
export async function stageSuite(folder: string, only: string): Promise<string> {
  const outfile = join(folder, 'suite', 'index.cjs');
  await build({
    entryPoints: [join(root, 'tests', 'editor', 'suite', 'index.ts')],
    outfile,
    bundle: true,
    format: 'cjs',
    platform: 'browser',
    target: 'es2022',
    // A web worker has no environment, so the choice of tests is built in.
    define: { ONLY: JSON.stringify(only) },
    external: ['vscode', 'node:*'],
    sourcemap: 'inline',
    logLevel: 'warning',
  });
  return outfile;
}
