/** Starts VS Code's server with its Node extension host on a folder; a browser shows the editor. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { editorSettings, type HostOptions, type StartedHost } from './host.js';
import { installNodeHost } from './node-install.js';
import { findFreePort } from './place.js';
import { collectOutput, run, startGroup, stopGroup, waitForLine } from './process.js';

/** Starts the server and waits until it listens. */
export async function startNodeHost(options: HostOptions): Promise<StartedHost> {
  const server = await installNodeHost();
  const port = await findFreePort();
  const data = join(options.folder, 'data');
  mkdirSync(join(data, 'User'), { recursive: true });
  writeFileSync(join(data, 'User', 'settings.json'), JSON.stringify({ ...editorSettings, ...options.settings }));
  const args = [
    'out/server-main.js',
    '--host',
    '127.0.0.1',
    '--port',
    String(port),
    '--without-connection-token',
    ...common(options.folder),
  ];
  const child = startGroup('node', args, { cwd: server, env: { ...environment(options.folder), ...options.env } });
  const log = collectOutput(child);
  await waitForLine(child, log, 'Extension host agent listening');
  return {
    url: pageAddress(port, options),
    log,
    stop: async () => stopGroup(child),
  };
}

/** Installs a packaged extension into the host that later starts on the same folder. */
export async function installPackage(vsix: string, folder: string): Promise<string> {
  const server = await installNodeHost();
  return run('node', ['out/server-main.js', '--install-extension', vsix, ...common(folder)], {
    cwd: server,
    env: environment(folder),
    timeoutMs: 120_000,
  });
}

function common(folder: string): string[] {
  const data = ['--server-data-dir', folder, '--user-data-dir', join(folder, 'data'), '--extensions-dir', join(folder, 'exts')];
  return [...data, '--accept-server-license-terms', '--telemetry-level', 'off'];
}

function environment(folder: string): Record<string, string> {
  return { EXTENSIONS_GALLERY: '{}', TMPDIR: folder, XDG_RUNTIME_DIR: folder };
}

function pageAddress(port: number, options: HostOptions): string {
  const authority = `127.0.0.1:${port}`;
  const payload: [string, string][] = [];
  if (options.extension !== undefined)
    payload.push(['extensionDevelopmentPath', `vscode-remote://${authority}${options.extension}`]);
  if (options.suite !== undefined) payload.push(['extensionTestsPath', `vscode-remote://${authority}${options.suite}`]);
  const query = new URLSearchParams({ folder: options.workspace });
  if (payload.length > 0) query.set('payload', JSON.stringify(payload));
  return `http://${authority}/?${query.toString()}`;
}
