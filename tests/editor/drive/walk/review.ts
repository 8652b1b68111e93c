/** The walk's end: the change beside the last commit, in the gutter and in source control, and the drawing and the sheet on paper. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { eventually, type Screen } from '../screen.js';
import { drawingOf, example, openExample, pageWith, toText, type Stations } from './place.js';

/** A wire moved to another lug: a mark in the gutter says what that does. */
async function gutter(screen: Screen): Promise<void> {
  const { page } = screen;
  await openExample(screen);
  await screen.goTo(wireIs);
  await page.keyboard.press('Backspace');
  await page.keyboard.type('1');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+s');
  await page.locator('.cgmr[class*=TextEditorDecorationType]').first().waitFor({ timeout: 60_000 });
  await screen.command('Show or Focus Hover');
  await page.locator('.monaco-hover', { hasText: 'Since the last commit' }).first().waitFor();
}
const wireIs = 'wire selector.B3 to selector.B2';

async function withCommit(screen: Screen): Promise<void> {
  const { page } = screen;
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+Shift+KeyG');
  const row = page.locator('.scm-view .monaco-list-row', { hasText: example }).first();
  await row.waitFor({ timeout: 60_000 });
  await row.click({ button: 'right' });
  await page.locator('.monaco-menu .action-label', { hasText: 'Compare with the Last Commit' }).click();
  const panel = await pageWith(screen, '.changes button');
  await panel.locator('.changes button').first().click();
  await panel.locator('.chosen').nth(1).waitFor();
}

async function withFile(screen: Screen): Promise<void> {
  await toText(screen);
  await screen.command('Lugwork: Compare with Another Circuit…');
  await screen.page.getByPlaceholder('Choose the circuit').waitFor();
  const rows = screen.page.locator('.quick-input-list .monaco-list-row');
  // In the order of their names, those of the folder itself before those in folders.
  if (!((await rows.first().textContent()) ?? '').startsWith('bass-')) throw new Error('the circuits are not in order');
}

async function compared(screen: Screen): Promise<void> {
  await screen.pick('two-single-coils-lever-4.lug');
  const panel = await pageWith(screen, 'h1:has-text("electrical change")');
  await panel.locator('.behaviour table').first().waitFor();
}

/** Circuits that are the same. */
async function unchanged(screen: Screen): Promise<void> {
  await screen.command('View: Close All Editors');
  await screen.openFile('phase-switch.lug');
  await screen.command('Lugwork: Compare with the Last Commit');
  await pageWith(screen, 'h1:has-text("no electrical change")');
}

async function saveAsked(screen: Screen): Promise<void> {
  await screen.command('View: Close All Editors');
  await screen.openFile(example);
  await screen.command('Lugwork: Open the Drawing Beside the Text');
  const panel = await drawingOf(screen);
  await panel.getByRole('button', { name: 'Save the drawing as SVG' }).click();
  const dialog = screen.page.locator('.quick-input-widget:visible');
  await dialog.getByText('Save the Drawing').first().waitFor();
  await eventually(async () => (await dialog.locator('input.input').first().inputValue()).endsWith('.svg'));
}

async function saved({ page, folder }: Screen): Promise<void> {
  await page.keyboard.press('Enter');
  await eventually(() => Promise.resolve(existsSync(join(folder, 'workspace', example.replace('.lug', '.svg')))));
}

async function printed(screen: Screen): Promise<void> {
  const { page } = screen;
  await toText(screen);
  await screen.command('Lugwork: Open the Bench Sheet Beside the Text');
  const panel = await pageWith(screen, '.progress');
  await panel.getByRole('button', { name: 'Print' }).click();
  await page.locator('.notification-toast, .quick-input-widget:visible').first().waitFor();
}

export const reviewed: Stations = {
  gutter,
  'with-commit': withCommit,
  'with-file': withFile,
  compared,
  unchanged,
  'save-asked': saveAsked,
  saved,
  printed,
};
