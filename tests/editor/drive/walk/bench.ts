/** The walk to the bench: expectations run, the sheet ticked and measured, a fault searched from readings. */
import type { Frame } from 'playwright-core';
import { eventually, type Screen } from '../screen.js';
import { drawingOf, example, lineOf, openExample, pageWith, revert, textOf, toText, type Stations } from './place.js';

/** The expectations of the file that is open, run. */
async function testing(screen: Screen): Promise<void> {
  const { page, command } = screen;
  await openExample(screen);
  await command('Testing: Focus on Test Explorer View');
  const row = page.locator('.test-explorer .monaco-list-row', { hasText: example });
  await row.waitFor();
  await row.locator('.monaco-tl-twistie').click();
  await page.locator('.test-explorer').getByText('selector "neck"').first().waitFor();
  await toText(screen);
  await command('Test: Run Tests in Current File');
  await row.locator('.codicon-testing-passed-icon').waitFor();
}

/** One that is not met, with the actual behaviour at its line. */
async function failing(screen: Screen): Promise<void> {
  const { page, command } = screen;
  await screen.goTo('hum cancelled');
  await page.keyboard.press('Control+Backspace');
  await page.keyboard.type('present');
  await page.keyboard.press('Escape');
  await lineOf(textOf(screen, example), 'hum present, reads 3.22k').waitFor();
  await command('Test: Run Tests in Current File');
  await page.locator('.test-explorer .codicon-testing-failed-icon').first().waitFor();
}

async function sheetOf(screen: Screen): Promise<Frame> {
  return pageWith(screen, '.progress');
}

async function sheet(screen: Screen): Promise<void> {
  await revert(screen);
  await screen.command('View: Hide Panel');
  await screen.command('Explorer: Focus on Folders View');
  await toText(screen);
  await screen.command('Lugwork: Open the Bench Sheet Beside the Text');
  const panel = await sheetOf(screen);
  await panel.locator('[aria-current=step]').waitFor({ timeout: 60_000 });
}

async function ticked(screen: Screen): Promise<void> {
  const panel = await sheetOf(screen);
  await panel.locator('input[type=checkbox]').first().focus();
  for (let time = 0; time < 4; time++) await screen.page.keyboard.press('Enter');
  await panel.locator('.progress', { hasText: /^4 of/ }).waitFor();
}

/** The first reading asks whether a record is to be begun. */
async function asked(screen: Screen): Promise<void> {
  const panel = await sheetOf(screen);
  await panel.locator('.reading input').first().fill('6.7k');
  await screen.page.keyboard.press('Enter');
  await screen.page.locator('.notification-toast').getByRole('button', { name: 'Begin a Record' }).waitFor();
}

async function measured(screen: Screen): Promise<void> {
  await screen.page.locator('.notification-toast').getByRole('button', { name: 'Begin a Record' }).click();
  const panel = await sheetOf(screen);
  await panel.locator('.reading .verdict', { hasText: 'within the limits' }).first().waitFor();
  await panel.locator('.reading input').nth(1).fill('9k');
  await screen.page.keyboard.press('Enter');
  await panel.locator('.reading .verdict', { hasText: 'off' }).first().waitFor();
}

async function refused(screen: Screen): Promise<void> {
  const panel = await sheetOf(screen);
  await panel.locator('.reading input').nth(2).fill('six');
  await screen.page.keyboard.press('Enter');
  await screen.page.locator('.notification-toast', { hasText: '“six” is not a reading' }).waitFor();
}

/** Two readings in the text: what explains them, the likeliest first, and where the next one is typed. */
async function suspects(screen: Screen): Promise<void> {
  const { page } = screen;
  await screen.command('Notifications: Clear All Notifications');
  await page.locator('.tab', { hasText: `Drawing of ${example}` }).click();
  await screen.goTo('reads 3.22k within 5%');
  await page.keyboard.press('Control+End');
  await page.keyboard.type('\nmeasured selector "bridge" : reads 6.71k\nmeasured selector "neck" : reads 250k\n');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+Home');
  const panel = await drawingOf(screen);
  await panel.locator('.suspects li').first().waitFor({ timeout: 60_000 });
  await panel.locator('.next-reading input').waitFor();
}

/** The next reading, typed beside the list, is a line of the text; what is no reading is not taken. */
async function nextTyped(screen: Screen): Promise<void> {
  const { page } = screen;
  const panel = await drawingOf(screen);
  const before = await panel.locator('.next-reading label span').textContent();
  const lines = await textOf(screen, example)
    .locator('.view-line', { hasText: /^measured/ })
    .count();
  await panel.locator('.next-reading input').fill('6.71k');
  await page.keyboard.press('Enter');
  await eventually(async () => (await panel.locator('.next-reading label span').textContent()) !== before);
  await page.keyboard.press('Control+End');
  const text = textOf(screen, example);
  await text
    .locator('.view-line', { hasText: /^measured/ })
    .nth(lines)
    .waitFor();
}

/** The whole search as a text beside the circuit. */
async function fault(screen: Screen): Promise<void> {
  await toText(screen);
  await screen.command('Lugwork: Locate the Fault from the Readings');
  await screen.page
    .locator('.monaco-editor .view-line', { hasText: /measured/ })
    .first()
    .waitFor();
  await screen.page.locator('.tab', { hasText: /fault/i }).waitFor();
}

export const atTheBench: Stations = {
  testing,
  'testing-failing': failing,
  sheet,
  'sheet-ticked': ticked,
  'sheet-asked': asked,
  'sheet-measured': measured,
  'sheet-refused': refused,
  suspects,
  'suspects-next': nextTyped,
  fault,
};
