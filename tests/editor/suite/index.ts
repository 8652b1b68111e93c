/** The suite, in the form that VS Code's extension tests have: `run` does everything and throws where a test failed. */
import type * as fileSystem from 'node:fs/promises';
import { env, UIKind, version } from 'vscode';
import { reportLine, runAll } from './harness.js';
import { isNodeHost, load, variable } from './host.js';
import './activation.js';
import './findings.js';
import './files.js';
import './settings.js';
import './preview.js';
import './sheet.js';
import './compare.js';
import './readings.js';
import './asking.js';
import './changing.js';
import './recovery.js';
import './killing.js';

/** Put in by the bundler. */
declare const ONLY: string;

/** Called by the editor. */
export async function run(): Promise<void> {
  const file = variable('LUGWORK_SUITE_RESULT');
  const host = `VS Code ${version}, ${isNodeHost ? 'Node' : 'web worker'}${env.uiKind === UIKind.Web ? ', in a browser' : ''}`;
  const report = await runAll(host, ONLY, async (soFar) => {
    if (file === undefined) console.log(reportLine(soFar));
    else await load<typeof fileSystem>('node:fs/promises').writeFile(file, JSON.stringify(soFar));
  });
  const failed = report.results.filter(({ passed }) => !passed);
  if (failed.length > 0) throw new Error(`${failed.length} of ${report.results.length} tests failed`);
}
