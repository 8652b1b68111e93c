/** A folder in which an independent editor finds the command by its name, and the settings for it as the reference has them. */
import { chmodSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { spawnSync } from 'node:child_process';
import { ensurePrograms } from '../../editor/hosts/needs.js';
import { read } from '../../harness/checkout.js';
import { folderWith } from '../../harness/process.js';

const setup = (await import(new URL('../../../server/scripts/setup.mjs', import.meta.url).href)) as {
  bundle: string;
  ensureBuilt(): Promise<void>;
};

/** The first block of code of that language in the page about other editors. */
export function settingsFor(language: string): string {
  const block = new RegExp(`\`\`\`${language}\\n([^]*?)\`\`\``).exec(read('language/reference-editors.md'))?.[1];
  if (block === undefined) throw new Error(`The page has no block of ${language}.`);
  return block;
}

/**
 * Runs an editor without a window on these files, `lugwork` on its path, and gives what it wrote into `result.json`. It is installed where that is possible; throws where it is
 * missing, and where it does not write the file.
 */
export async function inEditor(
  program: 'nvim' | 'emacs',
  words: readonly string[],
  files: Readonly<Record<string, string>>,
): Promise<unknown> {
  await ensurePrograms([program], `the language server in ${program}`);
  await setup.ensureBuilt();
  const command = `#!/bin/sh\nexec "${process.execPath}" "${setup.bundle}" "$@"\n`;
  const folder = folderWith({ ...files, 'bin/lugwork': command, 'home/.keep': '' });
  chmodSync(join(folder, 'bin', 'lugwork'), 0o755);
  const home = join(folder, 'home');
  const run = spawnSync(program, words, {
    cwd: folder,
    encoding: 'utf8',
    timeout: 150_000,
    env: {
      ...process.env,
      PATH: `${join(folder, 'bin')}:${process.env['PATH'] ?? ''}`,
      HOME: home,
      XDG_CONFIG_HOME: home,
      XDG_DATA_HOME: home,
      XDG_STATE_HOME: home,
      XDG_CACHE_HOME: home,
    },
  });
  try {
    return JSON.parse(readFileSync(join(folder, 'result.json'), 'utf8'));
  } catch (error) {
    throw new Error(`${program} ended with ${String(run.status ?? run.signal)} and wrote no result: ${run.stdout}${run.stderr}`, {
      cause: error,
    });
  }
}
