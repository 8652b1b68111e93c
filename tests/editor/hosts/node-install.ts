/** The Node host: code-server's copy of VS Code from the npm registry, with the native modules that its server loads built here. */
import { existsSync, mkdirSync, readlinkSync, realpathSync, symlinkSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { installOnce, isInstalled } from './install.js';
import { ensurePrograms, findProgram, type Need } from './needs.js';
import { run } from './process.js';

const version = '4.100.3';
const name = `code-server-${version}`;

export function isNodeHostInstalled(): boolean {
  return isInstalled(name);
}

/** The programs that the host needs: one to run, the others only to be built. */
export function nodeHostNeeds(): Need[] {
  return isNodeHostInstalled() ? ['rg'] : ['g++', 'make', 'python3', 'rg'];
}

/** Gives the folder of VS Code's server (its `out/server-main.js`), installing it where it is not there yet. */
export async function installNodeHost(): Promise<string> {
  await ensurePrograms(nodeHostNeeds(), 'the editor with its Node extension host');
  const host = await installOnce(name, '600 MB, several minutes', fill);
  return join(host, 'node_modules', 'code-server', 'lib', 'vscode');
}

async function fill(folder: string): Promise<void> {
  const env = { npm_config_nodedir: headersFolder() };
  console.log('  fetching the editor from the npm registry …');
  // Its own install script wants downloads; what it would build is built below.
  await run('npm', ['install', '--ignore-scripts', '--no-audit', '--no-fund', `code-server@${version}`], { cwd: folder });
  const server = join(folder, 'node_modules', 'code-server', 'lib', 'vscode');
  console.log('  fetching the packages of its server …');
  await run('npm', ['install', '--omit=dev', '--ignore-scripts', '--no-audit', '--no-fund'], { cwd: server });
  console.log('  building its native modules …');
  await run('npm', ['rebuild', '@vscode/spdlog', 'native-watchdog'], { cwd: server, env });
  // The terminal module's own script calls out first, so the compiler is called directly.
  await run('node', [findNodeGyp(), 'rebuild'], { cwd: join(server, 'node_modules', 'node-pty'), env });
  linkSearch(server);
  if (!existsSync(join(server, 'node_modules.asar'))) symlinkSync('node_modules', join(server, 'node_modules.asar'));
  for (const module of ['@vscode/spdlog', 'native-watchdog', 'node-pty', '@parcel/watcher']) {
    await run('node', ['-e', `require(${JSON.stringify(module)})`], { cwd: server });
  }
}

/** The folder with Node's own headers: without them node-gyp would download some from outside the registry. */
function headersFolder(): string {
  const prefix = process.env.npm_config_nodedir ?? dirname(dirname(realpathSync(process.execPath)));
  if (existsSync(join(prefix, 'include', 'node', 'node_version.h'))) return prefix;
  throw new Error(`The C headers of Node.js are missing (${join(prefix, 'include', 'node')}); install Node.js with its headers.`);
}

function findNodeGyp(): string {
  const npm = findProgram('npm');
  if (npm === undefined) throw new Error('npm is not on the path');
  return join(dirname(dirname(realpathSync(npm))), 'node_modules', 'node-gyp', 'bin', 'node-gyp.js');
}

function linkSearch(server: string): void {
  const place = join(server, 'node_modules', '@vscode', 'ripgrep', 'bin', 'rg');
  const program = findProgram('rg');
  if (program === undefined) throw new Error('ripgrep is not on the path');
  mkdirSync(dirname(place), { recursive: true });
  if (!existsSync(place)) symlinkSync(program, place);
  else if (readlinkSync(place) !== program) throw new Error(`${place} is something else than a link to ${program}`);
}
