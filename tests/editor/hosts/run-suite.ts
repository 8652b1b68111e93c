/** Runs the suite in one host and says whether that counts: exit code, result file, results and a time-out of our own. */
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { openBrowser } from './browser.js';
import { findDesktop, runDesktopSuite } from './desktop-host.js';
import type { HostName, HostOptions } from './host.js';
import { startNodeHost } from './node-host.js';
import { createRunFolder, root } from './place.js';
import { reportMark, type SuiteReport } from './report.js';
import { stageSuite, unpackExtension } from './stage.js';
import { judge } from './verdict.js';
import type { Tier } from './prepare.js';
import { startWebHost } from './web-host.js';

const patienceMs = 600_000;

/** The opened folder is not trusted and nobody asks, so that every test holds in such a folder. */
const untrusted = { 'security.workspace.trust.enabled': true, 'security.workspace.trust.startupPrompt': 'never' };

export interface SuiteChoice {
  readonly only?: string;
  readonly tier?: Tier;
}

export interface SuiteRun {
  readonly host: HostName;
  readonly seconds: number;
  readonly report?: SuiteReport;
  /** Why the run does not count; empty where it passed. */
  readonly reasons: readonly string[];
  /** What the extension host printed besides the results. */
  readonly log: readonly string[];
}

/** Runs all tests, or those whose name contains `only`; of a test that is repeated the usual tier takes fewer rounds. */
export async function runSuite(host: HostName, { only = '', tier = 'all' }: SuiteChoice = {}): Promise<SuiteRun> {
  const folder = createRunFolder();
  const begin = performance.now();
  try {
    const extension = join(folder, 'extension');
    const workspace = join(folder, 'workspace');
    const result = join(folder, 'result.json');
    cpSync(join(root, 'tests', 'editor', 'workspace'), workspace, { recursive: true });
    mkdirSync(extension);
    await unpackExtension(extension);
    const suite = await stageSuite(extension, only);
    const env = { LUGWORK_SUITE_RESULT: result, LUGWORK_SUITE_TIER: tier };
    const options = { workspace, extension, suite, folder, env, ...(host === 'node' ? { settings: untrusted } : {}) };
    const before = contentsOf(workspace);
    const { code, log, refused } = host === 'desktop' ? await runDesktop(options) : await runInBrowser(host, options, result);
    const { report, reasons } = judge(result, code);
    // The suite saves nothing, so whatever is on the disk afterwards was written unasked.
    if (contentsOf(workspace) !== before) reasons.push('files of the opened folder were changed, made or removed');
    for (const url of refused) reasons.push(`something outside this machine was asked for: ${url}`);
    return { host, seconds: (performance.now() - begin) / 1000, report, reasons, log };
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

interface Ended {
  readonly code: number | undefined;
  readonly log: readonly string[];
  readonly refused: readonly string[];
}

async function runDesktop(options: HostOptions & { extension: string; suite: string }): Promise<Ended> {
  const program = findDesktop();
  if (program === undefined)
    throw new Error('NOT RUN: the suite in the desktop editor. None is installed (`code` on the path, or LUGWORK_VSCODE).');
  const code = await Promise.race([runDesktopSuite(program, options), outOfTime()]);
  return { code, log: [], refused: [] };
}

async function runInBrowser(host: 'node' | 'web', options: HostOptions, result: string): Promise<Ended> {
  const started = await (host === 'node' ? startNodeHost(options) : startWebHost(options));
  try {
    const browser = await openBrowser(options.folder);
    try {
      const log: string[] = [];
      const ended = listen(browser.page, log, result);
      await browser.page.goto(started.url);
      const code = await Promise.race([ended, outOfTime()]);
      if (code !== 0) log.push(started.log());
      return { code, log, refused: browser.refused };
    } finally {
      await browser.close();
    }
  } finally {
    await started.stop();
  }
}

/** The editor calls these two functions of its page where a suite runs in it. */
async function listen(page: Page, log: string[], result: string): Promise<number> {
  let end: (code: number) => void = () => undefined;
  const ended = new Promise<number>((resolve) => (end = resolve));
  await page.exposeFunction('codeAutomationLog', (_type: string, args: unknown[]) => {
    const line = args.map(String).join(' ');
    // A web worker cannot write the result file, so its report comes this way.
    if (line.startsWith(reportMark)) writeFileSync(result, line.slice(reportMark.length));
    else log.push(line);
  });
  await page.exposeFunction('codeAutomationExit', (code: number) => end(code));
  return ended;
}

function outOfTime(): Promise<undefined> {
  return new Promise((resolve) => setTimeout(() => resolve(undefined), patienceMs).unref());
}

/** Every file of a folder with its text, as one string. */
function contentsOf(folder: string): string {
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
  return paths
    .map((path) => `${path}\n${statSync(join(folder, path)).isFile() ? readFileSync(join(folder, path), 'utf8') : ''}`)
    .join('\n');
}
