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

/** The key goes to the first step that is not ticked, over one that was left out; a click ticks it, and the count follows. */
async function stepped(screen: Screen): Promise<void> {
  const panel = panelOf(screen);
  const boxes = panel.locator('input[type=checkbox]');
  await boxes.nth(0).click();
  await boxes.nth(2).click();
  await panel.locator('.progress', { hasText: /^2 of/ }).waitFor();
  await boxes.nth(2).focus();
  await screen.page.keyboard.press('Control+Enter');
  await panel.locator('[aria-current=step] input:focus').waitFor();
  await screen.page.keyboard.press('Space');
  await panel.locator('.progress', { hasText: /^3 of/ }).waitFor();
  if (!(await boxes.nth(1).isChecked())) throw new Error('the key did not go to the step that was left out');
}

/** The first reading begins the record, where the user agrees; the panel says whether each fits. */
async function measured(screen: Screen): Promise<void> {
  const panel = panelOf(screen);
  await panel.locator('.reading input').first().fill('6.6k');
  await screen.page.keyboard.press('Enter');
  await screen.page.locator('.notification-toast').getByRole('button', { name: 'Begin a Record' }).click();
  await panel.locator('.reading .verdict', { hasText: 'within the limits' }).first().waitFor();
  await panel.locator('.reading input').nth(1).fill('9k');
  await screen.page.keyboard.press('Enter');
  await panel.locator('.reading .verdict', { hasText: 'off' }).first().waitFor();
}

/** What is no reading is refused, and the panel says what one looks like. */
async function refused(screen: Screen): Promise<void> {
  await panelOf(screen).locator('.reading input').nth(2).fill('six');
  await screen.page.keyboard.press('Enter');
  await screen.page.locator('.notification-toast', { hasText: '“six” is not a reading' }).waitFor();
}

/** The readings that were taken are lines of the record, and no other. */
async function written(screen: Screen): Promise<void> {
  const record = await screen.openFile('two-pickups.no-1.lug');
  for (const line of ['measured selector "bridge" : reads 6.6k', 'measured selector "both" : reads 9k'])
    await record.locator('.view-line', { hasText: spaced(line) }).waitFor();
  if ((await record.locator('.view-line', { hasText: /^measured/ }).count()) !== 2) throw new Error('the readings are not two');
}

/** The editor's lines have hard spaces. */
function spaced(line: string): RegExp {
  return new RegExp(line.replaceAll('.', '\\.').replaceAll(' ', '\\s+'));
}

/** Where the editor can open no browser, Print says so, and that the sheet is to be saved and printed from a browser. */
async function printed(screen: Screen): Promise<void> {
  const page = screen.page;
  if (await page.locator('.quick-input-widget').isVisible()) await page.keyboard.press('Escape');
  await panelOf(screen).getByRole('button', { name: 'Print' }).click();
  await page.locator('.quick-input-widget input.input').first().waitFor();
  await page.locator('.quick-input-widget', { hasText: 'print it from your browser' }).waitFor();
  await page.locator('.notification-toast', { hasText: 'can’t open the sheet for printing' }).first().waitFor();
}

/** What is saved is a page with cautions, drawing and ticks. */
async function saved(screen: Screen): Promise<void> {
  await printed(screen);
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
    pictures: { 'sheet-reloaded': reloaded, 'sheet-printed': printed, 'sheet-saved': saved, 'sheet-recorded': recorded },
  },
  {
    options: { host: 'node', size, settings: theme('Default Dark Modern') },
    pictures: {
      'sheet-dark': opened,
      'sheet-stepped': stepped,
      'sheet-measured': measured,
      'sheet-refused': refused,
      'sheet-written': written,
    },
  },
  { options: { host: 'web', size }, pictures: { 'web-sheet': opened, 'web-sheet-printed': printed } },
];
