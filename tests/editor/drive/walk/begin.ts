/** The walk's beginning: what greets a newcomer, the walkthrough's steps, the palette without a circuit, a circuit typed by hand. */
import type { Screen } from '../screen.js';
import { drawingOf, example, pageWith, textOf, type Stations } from './place.js';

/** What `npm start` shows: an example with its drawing, the walkthrough behind it. */
async function greeted(screen: Screen): Promise<void> {
  await textOf(screen, example).locator('.codelens-decoration', { hasText: 'no findings' }).waitFor({ timeout: 60_000 });
  await drawingOf(screen);
  await screen.page.locator('.tab', { hasText: 'Walkthrough' }).waitFor();
}

/** Each step of the walkthrough with its page. */
function step(title: string, words: string) {
  return async (screen: Screen): Promise<void> => {
    const { page } = screen;
    const tab = page.locator('.tab', { hasText: 'Walkthrough' });
    if (!(await page.locator('.gettingStartedContainer').isVisible())) await tab.click();
    const row = page.locator('.gettingStartedContainer .getting-started-step', { hasText: title });
    if ((await row.getAttribute('aria-expanded')) !== 'true') await row.locator('.step-title').click();
    const media = await pageWith(screen, `h2:has-text("${words}")`);
    // A picture that is not found leaves a page without it, and no error.
    await media.waitForFunction(
      '[...document.images].every((image) => image.complete && image.naturalWidth > 0) && document.images.length <= 1',
    );
  };
}

/** Without a circuit the palette offers what makes sense there. */
async function palette({ page, command }: Screen): Promise<void> {
  await command('View: Close All Editors');
  await page.locator('.part.editor .tab').first().waitFor({ state: 'detached' });
  await page.keyboard.press('F1');
  const list = page.locator('.quick-input-widget');
  await list.locator('input.input').first().fill('>Lugwork');
  await list.locator('.monaco-list-row', { hasText: 'New Circuit' }).waitFor();
}

/** A small whole circuit to begin with, as the walkthrough's first button makes it. */
async function newCircuit({ page, command }: Screen): Promise<void> {
  await page.keyboard.press('Escape');
  await command('Lugwork: New Circuit');
  await page.locator('.codelens-decoration', { hasText: 'no findings' }).first().waitFor();
}

/** An empty text: every statement is offered. */
async function emptyText({ page }: Screen): Promise<void> {
  await page.keyboard.press('Control+a');
  await page.keyboard.press('Delete');
  await page.keyboard.press('Control+Space');
  await page.locator('.suggest-widget.visible').getByText('circuit').first().waitFor();
}

/** The word `part` brings its statement, with the name to be typed. */
async function partStatement({ page }: Screen): Promise<void> {
  await page.keyboard.press('Escape');
  await page.keyboard.type('part');
  await page.locator('.suggest-widget.visible .monaco-list-row', { hasText: 'part' }).first().waitFor();
}

/** Behind the name the types of parts open as a list. */
async function partType({ page }: Screen): Promise<void> {
  await page.keyboard.press('Enter');
  await page.keyboard.type('neck');
  await page.keyboard.press('Tab');
  await page.locator('.suggest-widget.visible .monaco-list-row', { hasText: 'single-coil' }).first().waitFor();
}

/** Free lugs of a part are offered behind its dot. */
async function lugs({ page }: Screen): Promise<void> {
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+a');
  await page.keyboard.type('part neck : single-coil 6.2k 2.4H 110pF');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Enter');
  await page.keyboard.type('part volume : pot 250k audio');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Enter');
  await page.keyboard.type('wire neck.hot to volume.');
  await page.locator('.suggest-widget.visible .monaco-list-row', { hasText: '3' }).first().waitFor();
}

/** Half a circuit says what is missing yet. */
async function halfTyped({ page, command }: Screen): Promise<void> {
  await page.keyboard.press('Escape');
  await page.keyboard.type('3');
  await page.keyboard.press('Escape');
  await page.locator('.squiggly-error').first().waitFor();
  await command('View: Focus Problems');
  await page.locator('.markers-panel .monaco-list-row').nth(1).waitFor();
}

export const beginning: Stations = {
  greeted,
  'step-begin': step('Start with a circuit', 'A circuit is a text file'),
  'step-findings': step('Break a wire', 'Problems are underlined'),
  'step-drawing': step('See the drawing', 'See it from the solder side'),
  'step-ask': step('Ask about a part', 'Point at a name'),
  'step-expectations': step('Say what you expect', 'is a test'),
  'step-folder': step('Check a whole folder', 'Check all circuits'),
  'step-bench': step('Take care at the bench', 'Before the iron'),
  'step-sheet': step('Print the bench sheet', 'Take it to the bench'),
  'step-fault': step('Find a fault', 'Find a fault from readings'),
  'step-comparison': step('Compare two versions', 'Review a change'),
  palette,
  'new-circuit': newCircuit,
  'typed-nothing': emptyText,
  'typed-part': partStatement,
  'typed-type': partType,
  'typed-lugs': lugs,
  'typed-half': halfTyped,
};
