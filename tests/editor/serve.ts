/** `npm start` in its full form: the examples in a real editor with the extension in it, the desktop one or the one in a browser. */
import { spawn } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { findProgram, installPrograms, missingSentence } from './hosts/needs.js';
import { startNodeHost } from './hosts/node-host.js';
import { nodeHostNeeds } from './hosts/node-install.js';
import { createRunFolder, workFolder } from './hosts/place.js';
import { stageStart } from './start/stage.js';

/** Programs that show a page, as they are named on Linux; elsewhere the system has one. */
const browsers = ['xdg-open', 'firefox', 'chromium', 'chromium-browser', 'google-chrome', 'microsoft-edge'];

/** What a newcomer needs and a test does not: source control of the checkout that the examples are in, and lists as the editor has them. */
const startSettings = { 'git.enabled': true, 'git.openRepositoryInParentFolders': 'always' };

/** Opens the editor on the folder and resolves when it ends; gives a sentence that says why where none can be opened. */
export async function openEditor(workspace: string): Promise<string | undefined> {
  const desktop = findProgram('code');
  if (desktop !== undefined && hasDisplay()) {
    const extension = join(workFolder, 'start');
    rmSync(extension, { recursive: true, force: true });
    mkdirSync(extension, { recursive: true });
    const staged = await stageStart(extension);
    console.log(`Opening ${workspace} in the desktop editor.`);
    const tried = staged.map((path) => `--extensionDevelopmentPath=${path}`);
    spawn(desktop, ['--new-window', ...tried, workspace], {
      stdio: 'ignore',
      detached: true,
    }).unref();
    return undefined;
  }
  if (!hasDisplay() && !browsers.some((name) => findProgram(name) !== undefined))
    return 'The editor cannot be opened: this machine has neither a display nor a browser.';
  const missing = await installPrograms(nodeHostNeeds(), 'the editor in a browser');
  if (missing.length > 0) return `The editor cannot be opened. ${missingSentence(missing)}`;
  console.log('Starting the editor …');
  await serve(workspace);
  return undefined;
}

/** Serves the editor until it is interrupted. */
async function serve(workspace: string): Promise<void> {
  const folder = createRunFolder();
  try {
    await stageStart(join(folder, 'exts'));
    const host = await startNodeHost({ workspace, folder, settings: startSettings });
    console.log(`\nThe editor is at\n\n  ${host.url}\n\nOpen the address in a browser on this machine. Ctrl+C ends it.`);
    await new Promise<void>((resolve) => {
      process.once('SIGINT', resolve);
      process.once('SIGTERM', resolve);
    });
    await host.stop();
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

function hasDisplay(): boolean {
  return (
    process.platform === 'darwin' ||
    process.platform === 'win32' ||
    Boolean(process.env.DISPLAY) ||
    Boolean(process.env.WAYLAND_DISPLAY)
  );
}
