/** A page that `lugwork page` wrote, opened from the disk in a browser that has no network. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { openBrowser } from '../editor/hosts/browser.js';
import { inProcessAsync } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

export interface OpenedPage {
  readonly page: Page;
  /** The text of the file. */
  readonly html: string;
  /** Addresses that the page asked for, its own first. */
  readonly requests: readonly string[];
  /** What the page complained about: the policy's refusals, exceptions; dialogs that it opened. */
  readonly complaints: readonly string[];
  close(): Promise<void>;
}

/** The page of a circuit's text, as the command writes it. */
export async function pageOf(text: string): Promise<string> {
  const folder = folderWith({ 'a.lug': text });
  const { code, out, err } = await inProcessAsync(['page', 'a.lug'], folder);
  if (code !== 0) throw new Error(err);
  return out;
}

/** Opens a page of that many pixels; `before` is a script that runs before its own. */
export async function openPage(html: string, size = { width: 1200, height: 900 }, before = ''): Promise<OpenedPage> {
  const folder = folderWith({ 'page.html': html });
  const browser = await openBrowser(folder, size);
  const { page } = browser;
  const [complaints, requests]: [string[], string[]] = [[], []];
  page.on('request', (request) => requests.push(request.url()));
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('dialog', (dialog) => {
    complaints.push(dialog.message());
    void dialog.dismiss();
  });
  if (before !== '') await page.addInitScript(before);
  await page.goto(pathToFileURL(join(folder, 'page.html')).href);
  return { page, html, requests, complaints, close: () => browser.close() };
}

/** What axe finds, with the elements concerned. */
export async function axeFindings(page: Page): Promise<unknown[]> {
  // Through the debugger's own way in, for the page's policy lets no other script run.
  await page.evaluate(readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'));
  return page.evaluate<unknown[]>(
    'axe.run(document).then(({ violations }) => violations.map(({ id, nodes }) => [id, nodes.slice(0, 3).map(({ html, failureSummary }) => html + failureSummary)]))',
  );
}
