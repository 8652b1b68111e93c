/** The bench sheet on a screen: opened, ticked by keyboard, kept through an edit and a reload, seen in each theme, saved. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FrameLocator } from 'playwright-core';
import { panelOf } from './drawing.js';
import type { Group } from './pictures.js';
import type { Screen } from './screen.js';

const size = { width: 1500, height: 1100 };
const theme = (name: string): Record<string, string> => ({ 'workbench.colorTheme': name });

async function opened(screen: Screen): Promise<void> {
  await openSheet(screen);
}

async function openSheet(screen: Screen): Promise<FrameLocator> {
  await screen.openFile('two-pickups.lug');
  await screen.command('Lugwork: Open the Bench Sheet Beside the Text');
  const panel = panelOf(screen);
  await panel.locator('[aria-current=step]').waitFor({ timeout: 60_000 });
  return panel;
}

/** Enter ticks and goes on: five times. */
async function ticked(screen: Screen): Promise<void> {
  const panel = panelOf(screen);
  await panel.locator('input[type=checkbox]').first().focus();
  for (let time = 0; time < 5; time++) await screen.page.keyboard.press('Enter');
  await panel.locator('.progress', { hasText: /^5 of/ }).waitFor();
}

/** A line put in before everything leaves the ticks where they are. */
async function edited(screen: Screen): Promise<void> {
  await screen.goTo('instrument');
  await screen.page.keyboard.press('Home');
  await screen.page.keyboard.type('// A note.');
  await screen.page.keyboard.press('Enter');
  await panelOf(screen).locator('.progress', { hasText: /^5 of/ }).waitFor();
  if ((await panelOf(screen).locator('input:checked').count()) !== 5) throw new Error('the ticks are not five');
}

/** The text is broken: the last sheet stays, and says so. */
async function broken(screen: Screen): Promise<void> {
  await screen.goTo('to output.tip');
  await screen.page.keyboard.type('x');
  await panelOf(screen).locator('.banner', { hasText: 'last complete sheet' }).waitFor();
  await screen.page.keyboard.press('Backspace');
  await panelOf(screen).locator('.banner').waitFor({ state: 'hidden' });
}

async function reloaded(screen: Screen): Promise<void> {
  const panel = await openSheet(screen);
  await panel.locator('input[type=checkbox]').nth(2).click();
  await panel.locator('.progress', { hasText: /^1 of/ }).waitFor();
  await screen.command('Developer: Reload Window');
  await screen.page.locator('.monaco-workbench .part.editor').waitFor({ timeout: 60_000 });
  await panelOf(screen).locator('.progress', { hasText: /^1 of/ }).waitFor({ timeout: 60_000 });
}

/** Print, where no browser outside can be opened, asks where to save; what is saved is a page with cautions, drawing and ticks. */
async function saved(screen: Screen): Promise<void> {
  await panelOf(screen).getByRole('button', { name: 'Print' }).click();
  const name = screen.page.locator('.quick-input-widget input.input').first();
  await name.waitFor();
  await screen.page.keyboard.press('Enter');
  const place = join(screen.folder, 'workspace', 'two-pickups.html');
  for (let time = 0; !existsSync(place); time++) {
    if (time > 300) throw new Error('no page was saved');
    await screen.page.waitForTimeout(100);
  }
  const page = readFileSync(place, 'utf8');
  for (const words of ['Cautions', '<svg', '✓', 'Solder order'])
    if (!page.includes(words)) throw new Error(`the page holds no ${words}`);
}

/** A record is begun with the ticks, and its own sheet has them. */
async function recorded(screen: Screen): Promise<void> {
  await panelOf(screen).getByRole('button', { name: 'Record' }).click();
  const place = join(screen.folder, 'workspace', 'two-pickups.no-1.lug');
  await screen.page
    .locator('.monaco-editor[data-uri$="two-pickups.no-1.lug"] .view-line', { hasText: 'record' })
    .first()
    .waitFor();
  if (!/^ {2}done "/m.test(readFileSync(place, 'utf8'))) throw new Error('the record holds no tick');
}

/** Editors with the sheet, one a theme; the web host last. */
export const sheetGroups: readonly Group[] = [
  {
    options: { host: 'node', size, settings: theme('Default Light Modern') },
    pictures: { 'sheet-opened': opened, 'sheet-ticked': ticked, 'sheet-edited': edited, 'sheet-broken': broken },
  },
  {
    options: { host: 'node', size, settings: theme('Default High Contrast') },
    pictures: { 'sheet-reloaded': reloaded, 'sheet-saved': saved, 'sheet-recorded': recorded },
  },
  { options: { host: 'node', size, settings: theme('Default Dark Modern') }, pictures: { 'sheet-dark': opened } },
  { options: { host: 'web', size }, pictures: { 'web-sheet': opened } },
];
