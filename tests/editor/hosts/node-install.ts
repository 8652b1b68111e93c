/** The Node host: code-server's copy of VS Code from the npm registry, with the native modules that its server loads built here. */
import { existsSync, mkdirSync, readlinkSync, realpathSync, symlinkSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { installOnce } from './install.js';
import { ensurePrograms, findProgram } from './needs.js';
import { run } from './process.js';

const version = '4.100.3';

/** Gives the folder of VS Code's server (its `out/server-main.js`), installing it where it is not there yet. */
export async function installNodeHost(): Promise<string> {
  await ensurePrograms(['g++', 'make', 'python3', 'rg'], 'the editor host with a Node extension host');
  const host = await installOnce(`code-server-${version}`, fill);
  return join(host, 'node_modules', 'code-server', 'lib', 'vscode');
}

async function fill(folder: string): Promise<void> {
  // Its own install script wants downloads; what it would build is built below.
  await run('npm', ['install', '--ignore-scripts', '--no-audit', '--no-fund', `code-server@${version}`], { cwd: folder });
  const server = join(folder, 'node_modules', 'code-server', 'lib', 'vscode');
  await run('npm', ['install', '--omit=dev', '--ignore-scripts', '--no-audit', '--no-fund'], { cwd: server });
  const env = headersHere();
  await run('npm', ['rebuild', '@vscode/spdlog', 'native-watchdog'], { cwd: server, env });
  // The terminal module's own script calls out first, so the compiler is called directly.
  await run('node', [findNodeGyp(), 'rebuild'], { cwd: join(server, 'node_modules', 'node-pty'), env });
  linkSearch(server);
  if (!existsSync(join(server, 'node_modules.asar'))) symlinkSync('node_modules', join(server, 'node_modules.asar'));
  for (const module of ['@vscode/spdlog', 'native-watchdog', 'node-pty', '@parcel/watcher']) {
    await run('node', ['-e', `require(${JSON.stringify(module)})`], { cwd: server });
  }
}

/** Node's own headers where the system has them: nothing is then fetched for the compiler. */
function headersHere(): Record<string, string> {
  const prefix = dirname(dirname(realpathSync(process.execPath)));
  return existsSync(join(prefix, 'include', 'node', 'node_version.h')) ? { npm_config_nodedir: prefix } : {};
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
