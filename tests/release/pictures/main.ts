/** `npm run pictures`: the pictures of the README and of the walkthrough, from an example and the starter, in Chromium and in the editor; with a file that tells what each was made from. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { openScreen, type Screen } from '../../editor/drive/screen.js';
import { openBrowser } from '../../editor/hosts/browser.js';
import { prepare } from '../../editor/hosts/prepare.js';
import { root } from '../../harness/checkout.js';
import { hashOf, madeFrom, picturesFolder, sourcesOf, type Made, type Sources } from './sources.js';

for (const [, reason] of await prepare(['node'])) throw new Error(`The pictures can't be taken: ${reason}.`);
const folder = mkdtempSync(join(tmpdir(), 'lugwork-pictures-'));
try {
  const sources = sourcesOf((circuits) => {
    for (const [name, text] of Object.entries(circuits)) writeFileSync(join(folder, name), text);
    return lugwork;
  });
  mkdirSync(join(root, picturesFolder), { recursive: true });
  await takePages(sources);
  await takePhone();
  await takeEditor(sources);
  const made = Object.entries(sources.texts).map(([name, text]): [string, Made] => [
    name,
    { source: hashOf(text), picture: hashOf(readFileSync(pathOf(name))) },
  ]);
  writeFileSync(madeFrom, `${JSON.stringify(Object.fromEntries(made), undefined, 2)}\n`);
  for (const [name] of made) console.log(`${name}.png: ${(statSync(pathOf(name)).size / 1024).toFixed(0)} KiB`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/** What the command writes as one file each: two drawings, and the solder order of the sheet. */
async function takePages({ texts }: Sources): Promise<void> {
  const browser = await openBrowser(folder, { width: 800, height: 1000 });
  try {
    const { page } = browser;
    for (const name of ['drawing', 'comparison'] as const) {
      await show(page, `${name}.svg`, texts[name]);
      const svg = page.locator('svg').first();
      // As wide as a page shows it: more pixels would only make the file larger.
      await page.evaluate(`(() => {
        const svg = document.querySelector('svg');
        svg.setAttribute('width', '840');
        svg.setAttribute('height', String((840 * svg.viewBox.baseVal.height) / svg.viewBox.baseVal.width));
      })()`);
      await svg.screenshot({ path: pathOf(name) });
    }
    await show(page, 'sheet.html', texts.sheet);
    const [first, last] = await Promise.all([
      page.getByRole('heading', { name: 'Controls, at the bench' }).boundingBox(),
      page.locator('section', { hasText: 'Controls, at the bench' }).last().locator('tr').nth(10).boundingBox(),
    ]);
    if (first === null || last === null) throw new Error('the sheet has no solder order');
    const clip = { x: 30, y: first.y - 3, width: 740, height: last.y + last.height + 3 - first.y };
    await page.screenshot({ path: pathOf('sheet'), fullPage: true, clip });
  } finally {
    await browser.close();
  }
}

/** The page for everyone, as wide as a phone shows it. */
async function takePhone(): Promise<void> {
  const browser = await openBrowser(folder, { width: 390, height: 844 });
  try {
    const { page } = browser;
    await show(page, 'page.html', lugwork('page', 'no-3.lug'));
    await page.locator('.frame svg.played').waitFor();
    await page.locator('.controls label', { hasText: /^both$/ }).click();
    await page.locator('.says', { hasText: 'sounds' }).waitFor();
    await page.mouse.move(1, 1);
    await page.screenshot({ path: pathOf('page'), animations: 'disabled' });
  } finally {
    await browser.close();
  }
}

/** The circuit with a wire left off, its finding and the repairs that are offered. */
async function takeEditor({ circuits }: Sources): Promise<void> {
  const workspace = join(folder, 'workspace');
  mkdirSync(workspace);
  writeFileSync(join(workspace, 'no-3.lug'), circuits['no-3-broken.lug']!);
  const screen = await openScreen({
    host: 'node',
    workspace,
    size: { width: 1080, height: 690 },
    settings: {
      'editor.minimap.enabled': false,
      'editor.occurrencesHighlight': 'off',
      'editor.scrollbar.horizontal': 'hidden',
      'editor.scrollbar.vertical': 'hidden',
      'editor.stickyScroll.enabled': false,
      'breadcrumbs.enabled': false,
      'workbench.activityBar.location': 'hidden',
      'workbench.statusBar.visible': false,
      'lugwork.inlayHints.sounds': false,
    },
  });
  try {
    const { page } = screen;
    const editor = await screen.openFile('no-3.lug');
    await editor.locator('.squiggly-error').first().waitFor();
    await screen.command('View: Toggle Primary Side Bar Visibility');
    await screen.command('View: Focus Problems');
    await page.locator('.markers-panel').getByText('neck does not reach the output').waitFor();
    await screen.goTo('hum cancelled');
    const repair = page.locator('.action-widget').getByText('wire selector.B2 to selector.B3').first();
    // The list holds what is known when it opens, and repairs are found behind the findings.
    for (let asked = 0; asked < 10 && !(await repair.isVisible()); asked++) {
      await page.keyboard.press('Escape');
      await page.keyboard.press('Control+.');
      await repair.waitFor({ timeout: 5000 }).catch(() => undefined);
    }
    await repair.waitFor();
    // What lies above the two parts tells of the browser, not of the editor.
    const top = (await page.locator('.part.editor').boundingBox())!.y;
    await page.screenshot({
      path: pathOf('finding'),
      animations: 'disabled',
      clip: { x: 0, y: top, width: 1080, height: 690 - top },
    });
    await takeTests(screen, top);
    await takeStarter(screen, top);
  } finally {
    await screen.close();
  }
}

/** The Testing view beside the same text: what holds, what does not. */
async function takeTests(screen: Screen, top: number): Promise<void> {
  const { page, command } = screen;
  await page.keyboard.press('Escape');
  await command('Testing: Focus on Test Explorer View');
  const file = page.locator('.test-explorer .monaco-list-row', { hasText: 'no-3.lug' });
  await file.locator('.monaco-tl-twistie').click();
  await page.locator('.test-explorer').getByText('selector "neck"').first().waitFor();
  await command('Test: Run All Tests');
  await page.locator('.test-explorer .codicon-testing-failed-icon').first().waitFor();
  await command('View: Hide Panel');
  await page.mouse.move(1, 1);
  await page.screenshot({ path: pathOf('testing'), animations: 'disabled', clip: { x: 0, y: top, width: 1080, height: 330 } });
}

/** The circuit that a new text begins with, and what the pickup’s name answers. */
async function takeStarter(screen: Screen, top: number): Promise<void> {
  const { page, command } = screen;
  await command('View: Close All Editors');
  await command('View: Toggle Primary Side Bar Visibility');
  await command('Lugwork: New Circuit');
  await page.locator('.codelens-decoration', { hasText: '2 of 2' }).last().waitFor();
  const clip = { x: 0, y: top, width: 760, height: 400 };
  await page.screenshot({ path: pathOf('circuit'), animations: 'disabled', clip });
  await screen.goTo('part pickup');
  await page.keyboard.press('ArrowLeft');
  await command('Show or Focus Hover');
  await page.locator('.monaco-hover').getByText('2.6').first().waitFor();
  await page.screenshot({ path: pathOf('hover'), animations: 'disabled', clip: { ...clip, width: 900 } });
}

async function show(page: Page, name: string, text: string): Promise<void> {
  const path = join(folder, name);
  writeFileSync(path, text);
  await page.goto(`file://${path}`);
}

function lugwork(...words: string[]): string {
  const run = spawnSync(process.execPath, [join(root, 'dist', 'lugwork.mjs'), ...words], { cwd: folder, encoding: 'utf8' });
  if (run.status === null || run.status > 1 || run.stderr !== '') throw new Error(`lugwork ${words.join(' ')}: ${run.stderr}`);
  return run.stdout;
}

function pathOf(name: string): string {
  return join(root, picturesFolder, `${name}.png`);
}
