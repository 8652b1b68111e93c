/** Node.js in the versions that are supported, each from its package on the registry, installed once beside the editors of the tests. */
import { join } from 'node:path';
import { installOnce } from '../editor/hosts/install.js';
import { run } from '../editor/hosts/process.js';

/** The lowest version that `engines` allows, and the newest of the later lines with long support when this was written. */
export const nodeVersions = ['20.19.0', '22.23.5', '24.22.3'];

/** The package that brings the program for this machine; its maker publishes one for each system. */
const program = `node-${process.platform === 'win32' ? 'win' : process.platform}-${process.arch}`;

/** The folder with the program `node` of that version. */
export async function nodeFolder(version: string): Promise<string> {
  const host = await installOnce(`${program}-${version}`, '180 MB', async (folder) => {
    await run('npm', ['install', '--ignore-scripts', '--no-audit', '--no-fund', `${program}@${version}`], { cwd: folder });
  });
  return join(host, 'node_modules', program, 'bin');
}
