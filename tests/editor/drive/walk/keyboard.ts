/** The walk by keyboard alone: no mouse from the first key on. In each panel Tab goes from stop to stop, each of which shows the keyboard, and out again. */
import type { Frame } from 'playwright-core';
import { eventually, type Screen } from '../screen.js';
import { drawingOf, example, lineOf, pageWith, textOf, withoutFindings, type Stations } from './place.js';

/** More stops than this would be a trap, or as good as one. */
const mostStops = 60;

/** A file by its name. */
async function opened({ page }: Screen): Promise<void> {
  const editor = page.locator(`.monaco-editor[data-uri$="${example}"]`);
  await eventually(async () => {
    await page.keyboard.press('Control+p');
    return page.locator('.quick-input-widget:visible').isVisible();
  });
  await page.keyboard.type(example);
  await page.locator('.quick-input-list .monaco-list-row', { hasText: example }).first().waitFor();
  await page.keyboard.press('Enter');
  await editor.locator('.codelens-decoration', { hasText: 'no findings' }).waitFor({ timeout: 60_000 });
}

/** A line taken out, the next problem by its key, the fix by its own. */
async function broken(screen: Screen): Promise<void> {
  const { page } = screen;
  await find(screen, 'wire selector.B3 to selector.B2');
  await page.keyboard.press('Control+Shift+KeyK');
  await textOf(screen, example).locator('.squiggly-error').first().waitFor();
  await page.keyboard.press('F8');
  await page.locator('.zone-widget').getByText('does not reach the output').waitFor();
}

async function fixed(screen: Screen): Promise<void> {
  const { page } = screen;
  await page.keyboard.press('Escape');
  const fix = page.locator('.action-widget').getByText('wire selector.B2 to selector.B3').first();
  await eventually(async () => {
    await page.keyboard.press('Control+.');
    if (
      await fix.waitFor({ timeout: 3000 }).then(
        () => true,
        () => false,
      )
    )
      return true;
    await page.keyboard.press('Escape');
    return false;
  });
  await page.keyboard.press('Enter');
  await lineOf(textOf(screen, example), 'wire selector.B2 to selector.B3').waitFor();
  await withoutFindings(screen);
}

/** Into the drawing, stop by stop through it and out. */
async function drawing(screen: Screen): Promise<void> {
  await palette(screen, 'Lugwork: Open the Drawing Beside the Text');
  const panel = await drawingOf(screen);
  await intoPanel(screen, panel);
  const stops = await stopsOf(screen, panel);
  inOrder(stops, [
    'solder',
    'auto',
    'Zoom out',
    'Fit the whole drawing',
    'Save the drawing as PNG',
    /, /,
    'Reset all',
    'Room for the drawing',
    'Controls',
    /^1|bridge/,
    'volume',
    'Positions',
    'Response',
  ]);
}

/** Arrow keys go through the drawing, F2 asks for a name, Escape leaves all as it was. */
async function inDrawing(screen: Screen): Promise<void> {
  const { page } = screen;
  const panel = await drawingOf(screen);
  await intoPanel(screen, panel);
  // Back in behind the last stop, so back through it.
  await until(screen, panel, 'Shift+Tab', isThing);
  await until(screen, panel, 'ArrowRight', (name) => name.startsWith('selector, lever'));
  await page.keyboard.press('PageUp');
  await panel.locator('.says', { hasText: 'parallel' }).waitFor();
  await page.keyboard.press('i');
  await panel.locator('.details .about > *').first().waitFor();
}

/** A wire by key from a lug to another, taken back in the text. */
async function wired(screen: Screen): Promise<void> {
  const { page } = screen;
  const panel = await drawingOf(screen);
  await page.keyboard.press('Escape');
  await until(screen, panel, 'ArrowDown', (name) => name.startsWith('lug selector'));
  const from = (await focusOf(panel)).replace('lug ', '');
  await page.keyboard.press('w');
  await panel.locator('.hint', { hasText: `A wire from ${from}` }).waitFor();
  await until(screen, panel, 'ArrowRight', (name) => name.startsWith('lug ') && !name.includes('selector'));
  const to = (await focusOf(panel)).replace('lug ', '');
  await page.keyboard.press('w');
  await lineOf(textOf(screen, example), `wire ${from} to ${to}`).waitFor();
}

async function rename(screen: Screen): Promise<void> {
  const { page } = screen;
  const panel = await drawingOf(screen);
  await page.keyboard.press('Control+1');
  await page.keyboard.press('Control+z');
  await intoPanel(screen, panel);
  await until(screen, panel, 'Tab', isThing);
  await until(screen, panel, 'ArrowUp', (name) => isThing(name) && !name.startsWith('lug '));
  await page.keyboard.press('F2');
  await page.locator('.rename-box input:focus').waitFor();
}

/** The sheet: every stop of its head, then steps ticked by Enter. */
async function sheet(screen: Screen): Promise<void> {
  const { page } = screen;
  await page.keyboard.press('Escape');
  await palette(screen, 'Lugwork: Open the Bench Sheet Beside the Text');
  const panel = await pageWith(screen, '.progress');
  await panel.locator('[aria-current=step]').waitFor({ timeout: 60_000 });
  await intoPanel(screen, panel);
  const stops: string[] = [];
  for (let stop = 0; stop < 6; stop++) stops.push(await nextStop(screen, panel));
  inOrder(stops, ['Next step', 'Print', 'Save…', 'Record…']);
}

async function ticked(screen: Screen): Promise<void> {
  const { page } = screen;
  const panel = await pageWith(screen, '.progress');
  await page.keyboard.press('Control+Enter');
  await panel.locator('[aria-current=step] input:focus').waitFor();
  for (let time = 0; time < 3; time++) await page.keyboard.press('Enter');
  await panel.locator('.progress', { hasText: /^3 of/ }).waitFor();
}

/** What differs from the last commit, and every stop of that panel. */
async function compared(screen: Screen): Promise<void> {
  const { page } = screen;
  await page.keyboard.press('Control+1');
  await palette(screen, 'Lugwork: Compare with the Last Commit');
  const panel = await pageWith(screen, '.changes button');
  await intoPanel(screen, panel);
  const stops = await stopsOf(screen, panel);
  inOrder(stops, [/selector/]);
}

/** Gives the keyboard to the panel beside the text, by way of the text: the editor doesn't go where it thinks that it is. A key pressed while the panel loads reaches nobody. */
async function intoPanel({ page }: Screen, panel: Frame): Promise<void> {
  await eventually(async () => {
    await page.keyboard.press('Control+1');
    await page.keyboard.press('Control+2');
    return panel.evaluate<boolean>('document.hasFocus()');
  });
}

/** True of what is in the drawing of the example. */
function isThing(name: string): boolean {
  return /^lug |^(bridge|neck|selector|volume|tone|tone-cap|saddle|output), /.test(name);
}

async function palette({ page }: Screen, title: string): Promise<void> {
  const input = page.locator('.quick-input-widget:visible input.input').first();
  await eventually(async () => {
    await page.keyboard.press('F1');
    return input.isVisible();
  });
  await page.keyboard.type(title);
  await page.locator('.quick-input-list .monaco-list-row.focused', { hasText: title }).waitFor();
  await page.keyboard.press('Enter');
}

/** The cursor behind the text, by the editor's own find. */
async function find({ page }: Screen, text: string): Promise<void> {
  await page.keyboard.press('Control+f');
  await page.locator('.find-widget.visible textarea:focus').first().waitFor();
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
  await page.keyboard.press('Escape');
  await page.keyboard.press('ArrowRight');
}

/** Presses a key until what it focuses is wanted. */
async function until({ page }: Screen, panel: Frame, key: string, isWanted: (name: string) => boolean): Promise<void> {
  const met: string[] = [];
  for (let tries = 0; tries < mostStops; tries++) {
    const name = await focusOf(panel);
    if (isWanted(name)) return;
    met.push(name);
    await page.keyboard.press(key);
  }
  throw new Error(`${key} does not lead there: ${met.slice(-8).join(' | ')}`);
}

/** Everything that Tab stops at until it leaves the panel. */
async function stopsOf(screen: Screen, panel: Frame): Promise<string[]> {
  const stops: string[] = [];
  for (;;) {
    if (stops.length > mostStops) throw new Error(`Tab does not leave the panel: ${stops.slice(-8).join(' | ')}`);
    const stop = await nextStop(screen, panel);
    if (stop === '') return stops;
    stops.push(stop);
  }
}

/** The next stop; its surroundings must look otherwise than without the keyboard. */
async function nextStop({ page }: Screen, panel: Frame): Promise<string> {
  await page.keyboard.press('Tab');
  if (!(await panel.evaluate<boolean>('document.hasFocus() && document.activeElement !== document.body'))) return '';
  const name = await focusOf(panel);
  const box = (await (await panel.evaluateHandle('document.activeElement')).asElement()?.boundingBox()) ?? null;
  if (box === null) throw new Error(`“${name}” has the keyboard and no place`);
  const [x, y] = [Math.max(0, box.x - 6), Math.max(0, box.y - 6)];
  const clip = { x, y, width: Math.min(box.width + 12, 1600 - x), height: Math.max(1, Math.min(box.height + 12, 1000 - y)) };
  const seen = await page.screenshot({ clip, animations: 'disabled' });
  await panel.evaluate('(window.focusedBefore = document.activeElement).blur()');
  const unseen = await page.screenshot({ clip, animations: 'disabled' });
  await panel.evaluate('window.focusedBefore.focus()');
  if (seen.equals(unseen)) throw new Error(`“${name}” does not show that it has the keyboard`);
  return name;
}

/** What has the keyboard, by its name. */
function focusOf(panel: Frame): Promise<string> {
  return panel.evaluate<string>(
    '((one) => one === document.body ? "" : one?.getAttribute("aria-label") ?? (one instanceof HTMLInputElement ? one.labels?.[0]?.textContent ?? one.value : one?.textContent) ?? "")(document.activeElement)',
  );
}

/** The wanted stops come in this order, whatever lies between them. */
function inOrder(stops: readonly string[], wanted: readonly (string | RegExp)[]): void {
  let at = 0;
  for (const one of wanted) {
    const found = stops.findIndex(
      (stop, index) =>
        index >= at && (typeof one === 'string' ? stop.toLowerCase().startsWith(one.toLowerCase()) : one.test(stop)),
    );
    if (found < 0) throw new Error(`Tab does not stop at ${String(one)} in its turn: ${stops.join(' | ')}`);
    at = found + 1;
  }
}

export const byKeyboard: Stations = {
  opened,
  broken,
  fixed,
  drawing,
  'drawing-turned': inDrawing,
  'drawing-wired': wired,
  'drawing-rename': rename,
  sheet,
  'sheet-ticked': ticked,
  compared,
};
