// Makes a checkout ready to run: installs the locked dependencies where they are missing or stale, builds the command where its sources are newer.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
export const bundle = join(root, 'dist', 'lugwork.mjs');

/** Installs what the lock file names, unless it is there already. Throws an Error in plain words where that fails. */
export function ensureInstalled() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19))
    throw new Error(`Node.js 20.19 or newer is needed; this is ${process.versions.node}.`);
  if (isInstalled()) return;
  console.error('Installing the dependencies that package-lock.json names (npm ci) …');
  const run = runNpm(['ci', '--no-audit', '--no-fund', '--loglevel', 'error'], { cwd: root, stdio: ['ignore', 2, 2] });
  if (run.error) throw new Error(`npm could not be started: ${run.error.message}`);
  if (run.status !== 0) throw new Error(`npm ci ended with exit code ${run.status}; what it said stands above.`);
}

/** Runs npm until it ends: the one that started this script, else the one on the path. */
export function runNpm(words, options) {
  const inside = process.env.npm_execpath;
  const [command, before] = inside?.endsWith('.js')
    ? [process.execPath, [inside]]
    : [process.platform === 'win32' ? 'npm.cmd' : 'npm', []];
  return spawnSync(command, [...before, ...words], { shell: command.endsWith('.cmd'), ...options });
}

/** Builds `dist/` unless it is newer than everything it is made from. */
export async function ensureBuilt() {
  if (isNewer(bundle, ['language', 'server']) && isNewer(join(root, 'dist', 'desktop.cjs'), ['language', 'server', 'extension']))
    return;
  const { build } = await import('./build.mjs');
  await build();
}

/** The same for the command alone and the page that it fills in, so that an unfinished extension does not stop it. */
export async function ensureCommandBuilt() {
  const isPageNew = isNewer(join(root, 'dist', 'page.html'), [
    'language',
    'extension/page',
    'extension/preview/webview',
    'extension/scripts',
  ]);
  if (isPageNew && isNewer(bundle, ['language', 'server'])) return;
  const { buildCommand } = await import('./build.mjs');
  await buildCommand();
}

/** True where every package of the lock file is installed in that version, and none that it does not name. */
export function isInstalled() {
  const locked = packagesOf(join(root, 'package-lock.json'));
  const installed = packagesOf(join(root, 'node_modules', '.package-lock.json'));
  if (!locked || !installed) return false;
  for (const [path, entry] of Object.entries(locked)) {
    if (path === '' || entry.link || (entry.optional && !installed[path])) continue;
    if (installed[path]?.version !== entry.version) return false;
  }
  return Object.keys(installed).every((path) => locked[path] !== undefined);
}

/** True where a file is newer than each source in the folders and the two files that fix what goes in. */
function isNewer(file, folders) {
  if (!existsSync(file)) return false;
  const built = statSync(file).mtimeMs;
  const fixed = ['package.json', 'package-lock.json'].map((name) => join(root, name));
  return [...fixed, ...folders.flatMap((folder) => [...sources(join(root, folder))])].every(
    (path) => statSync(path).mtimeMs <= built,
  );
}

function packagesOf(file) {
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')).packages : undefined;
}

function* sources(folder) {
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* sources(path);
    else if (/\.(ts|mjs|json|lug|css)$/.test(entry.name)) yield path;
  }
}
