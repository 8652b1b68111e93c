/** Lays out the extension as its package holds it, and the suite beside it: a file left out of the package is missed here already. */
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { build } from 'esbuild';
import { readZip } from '../../harness/archives.js';
import { root } from './place.js';
import { run } from './process.js';

const script = join(root, 'server', 'scripts', 'package.mjs');

/** Builds the extension and puts what its package would hold into `folder`. */
export async function stageExtension(folder: string): Promise<void> {
  await run('node', [script, '--stage', folder], { cwd: root });
}

/** Builds the packages and gives the path of the extension's in `folder`. */
export async function packExtension(folder: string): Promise<string> {
  const packages = join(folder, 'packages');
  await run('node', [script, packages], { cwd: root });
  const vsix = readdirSync(packages).find((name) => name.endsWith('.vsix'));
  if (vsix === undefined) throw new Error(`there is no extension's package in ${packages}`);
  return join(packages, vsix);
}

/** Builds the package and unpacks it into `folder`, as an editor that installs it does. */
export async function unpackExtension(folder: string): Promise<void> {
  const vsix = await packExtension(dirname(folder));
  for (const [name, bytes] of readZip(readFileSync(vsix))) {
    if (!name.startsWith('extension/')) continue;
    const path = join(folder, name.slice('extension/'.length));
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, bytes);
  }
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
    // An import left out would leave its tests out.
    logOverride: { 'ignored-bare-import': 'error' },
  });
  return outfile;
}
