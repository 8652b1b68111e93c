/** Runs the suite in one host and says whether that counts: exit code, result file, results and a time-out of our own. */
import { cpSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { openBrowser } from './browser.js';
import { findDesktop, runDesktopSuite } from './desktop-host.js';
import type { HostOptions } from './host.js';
import { startNodeHost } from './node-host.js';
import { createRunFolder, root } from './place.js';
import { reportMark, type SuiteReport } from './report.js';
import { stageExtension, stageSuite } from './stage.js';
import { judge } from './verdict.js';
import { startWebHost } from './web-host.js';

export type HostName = 'desktop' | 'node' | 'web';

const patienceMs = 180_000;

export interface SuiteRun {
  readonly host: HostName;
  readonly seconds: number;
  readonly report?: SuiteReport;
  /** Why the run does not count; empty where it passed. */
  readonly reasons: readonly string[];
  /** What the extension host printed besides the results. */
  readonly log: readonly string[];
}

/** Runs all tests, or those whose name contains `only`. */
export async function runSuite(host: HostName, only = ''): Promise<SuiteRun> {
  const folder = createRunFolder();
  const begin = performance.now();
  try {
    const extension = join(folder, 'extension');
    const workspace = join(folder, 'workspace');
    const result = join(folder, 'result.json');
    cpSync(join(root, 'tests', 'editor', 'workspace'), workspace, { recursive: true });
    mkdirSync(extension);
    await stageExtension(extension);
    const suite = await stageSuite(extension);
    const env = { LUGWORK_SUITE_RESULT: result, LUGWORK_SUITE_ONLY: only };
    const options = { workspace, extension, suite, folder, env };
    const { code, log } = host === 'desktop' ? await runDesktop(options) : await runInBrowser(host, options, result);
    return { host, seconds: (performance.now() - begin) / 1000, ...judge(result, code), log };
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

interface Ended {
  readonly code: number | undefined;
  readonly log: readonly string[];
}

async function runDesktop(options: HostOptions & { extension: string; suite: string }): Promise<Ended> {
  const program = findDesktop();
  if (program === undefined)
    throw new Error('NOT RUN: the suite in the desktop editor. None is installed (`code` on the path, or LUGWORK_VSCODE).');
  const code = await Promise.race([runDesktopSuite(program, options), outOfTime()]);
  return { code, log: [] };
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
      log.push(...browser.refused.map((url) => `refused: ${url}`));
      if (code !== 0) log.push(started.log());
      return { code, log };
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
