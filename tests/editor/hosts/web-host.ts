/** Starts VS Code for browsers, whose extensions run in a web worker; the test runner serves it, the browser is our own. */
import type { HostOptions, StartedHost } from './host.js';
import { findFreePort, root } from './place.js';
import { collectOutput, startGroup, stopGroup, waitForLine } from './process.js';
import { buildCommit, installWebHost } from './web-install.js';

/** The server's whole program: a process of its own, so that it can be stopped whole and its chatter is kept apart. */
const program =
  'const [runner, options] = process.argv.slice(1); require(runner).open(JSON.parse(options)).then(() => console.log("serving"));';

/** Serves the editor on the folder, which it shows as `vscode-test-web://mount/` and changes in memory only. */
export async function startWebHost(options: HostOptions): Promise<StartedHost> {
  const install = await installWebHost();
  const port = await findFreePort();
  const words = {
    browserType: 'none',
    quality: 'stable',
    commit: buildCommit,
    testRunnerDataDir: install.data,
    folderPath: options.workspace,
    extensionDevelopmentPath: options.extension,
    extensionTestsPath: options.suite,
    host: 'localhost',
    port,
  };
  const child = startGroup('node', ['-e', program, install.runner, JSON.stringify(words)], { cwd: root });
  const log = collectOutput(child);
  await waitForLine(child, log, 'serving');
  return { url: `http://localhost:${port}/`, log, stop: async () => stopGroup(child) };
}
