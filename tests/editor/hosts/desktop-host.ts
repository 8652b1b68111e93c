/** Runs a suite in the desktop VS Code where one is installed. Nothing is downloaded for it. */
import { existsSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { runTests } from '@vscode/test-electron';
import type { HostOptions } from './host.js';
import { findProgram } from './needs.js';

/** The program of an installed desktop VS Code: named by LUGWORK_VSCODE, else the one behind `code` on the path. */
export function findDesktop(): string | undefined {
  const named = process.env.LUGWORK_VSCODE;
  if (named !== undefined && named !== '') return named;
  const command = findProgram('code');
  if (command === undefined) return undefined;
  // `code` is a script in a `bin` folder beside the program, or four folders below it on a Mac.
  const bin = dirname(realpathSync(command));
  return [join(bin, '..', 'code'), join(bin, '..', 'Code.exe'), join(bin, '..', '..', '..', 'MacOS', 'Electron')].find((path) =>
    existsSync(path),
  );
}

/** Runs the suite to its end and gives its exit code. */
export async function runDesktopSuite(
  program: string,
  options: Required<Pick<HostOptions, 'extension' | 'suite'>> & HostOptions,
): Promise<number> {
  const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  const data = ['--user-data-dir', join(options.folder, 'data'), '--extensions-dir', join(options.folder, 'exts')];
  try {
    return await runTests({
      vscodeExecutablePath: program,
      extensionDevelopmentPath: options.extension,
      extensionTestsPath: options.suite,
      extensionTestsEnv: options.env === undefined ? undefined : { ...options.env },
      launchArgs: [options.workspace, ...data, ...asRoot, '--disable-workspace-trust', '--skip-welcome', '--disable-telemetry'],
    });
  } catch (error) {
    console.log(`The desktop editor said: ${String(error)}`);
    return 1;
  }
}
