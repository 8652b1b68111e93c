/** The suite, in the form that VS Code's extension tests have: `run` does everything and throws where a test failed. */
import { env, UIKind, version } from 'vscode';
import type * as fileSystem from 'node:fs/promises';
import { reportLine, runAll } from './harness.js';
import './activation.js';

// What a Node host has and a web worker has not.
declare const process: { env: Record<string, string | undefined> } | undefined;
declare const require: (name: string) => unknown;

/** Called by the editor. */
export async function run(): Promise<void> {
  const variables = typeof process === 'object' ? process.env : {};
  const file = variables.LUGWORK_SUITE_RESULT;
  const host = `VS Code ${version}, ${file === undefined ? 'web worker' : 'Node'}${env.uiKind === UIKind.Web ? ', in a browser' : ''}`;
  const report = await runAll(host, variables.LUGWORK_SUITE_ONLY ?? '', async (soFar) => {
    if (file === undefined) console.log(reportLine(soFar));
    else await (require('node:fs/promises') as typeof fileSystem).writeFile(file, JSON.stringify(soFar));
  });
  const failed = report.results.filter(({ passed }) => !passed);
  if (failed.length > 0) throw new Error(`${failed.length} of ${report.results.length} tests failed`);
}
