/** The walk through the text: a wire broken and put right, what hovers say, definition, rename, the outline. */
import type { Locator } from 'playwright-core';
import { eventually, type Screen } from '../screen.js';
import { drawingOf, example, lineOf, openExample, textOf, toText, type Stations } from './place.js';

const wire = 'wire selector.B3 to selector.B2';

/** A wire left out: the findings, each with its reason, and the drawing that has them as well. */
async function broken(screen: Screen): Promise<void> {
  await screen.goTo(wire);
  await screen.page.keyboard.press('Control+Shift+KeyK');
  await textOf(screen, example).locator('.squiggly-error').first().waitFor();
  await screen.command('View: Focus Problems');
  await screen.page.locator('.markers-panel').getByText('neck does not reach the output').waitFor();
  await (await drawingOf(screen)).locator('.findings li').first().waitFor();
}

/** The finding in the text, with the mouse on it. */
async function message(screen: Screen): Promise<void> {
  const { page } = screen;
  await screen.command('View: Hide Panel');
  await screen.pointAt(textOf(screen, example).locator('.squiggly-error').first());
  await page.locator('.monaco-hover').getByText('does not reach').first().waitFor();
}

/** Where the gutter holds the icon of a test and the lines beside are full, no lamp lies over the letters. */
async function lamp(screen: Screen): Promise<void> {
  const { page } = screen;
  await page.mouse.move(5, 5);
  await screen.goTo('sounds parallel');
  // Longer than the editor waits until it asks what the lamp would offer.
  await page.waitForTimeout(2000);
  if (await page.locator('.monaco-editor .lightBulbWidget:visible').first().isVisible())
    throw new Error('a lamp lies over the text');
}

async function fixes({ page }: Screen): Promise<void> {
  const fix = page
    .locator('.action-widget')
    .getByText(`${wire.replace('B3 to selector.B2', 'B2 to selector.B3')}`)
    .first();
  // The list holds what is known when it opens, and repairs are found behind the findings.
  await eventually(async () => {
    if (await fix.isVisible()) return true;
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+.');
    return fix.waitFor({ timeout: 3000 }).then(
      () => true,
      () => false,
    );
  });
}

async function fixed(screen: Screen): Promise<void> {
  await screen.page.keyboard.press('Enter');
  const editor = textOf(screen, example);
  await editor.locator('.squiggly-error').first().waitFor({ state: 'detached' });
  await editor.locator('.codelens-decoration', { hasText: 'no findings' }).waitFor();
  await lineOf(editor, 'wire selector.B2 to selector.B3').waitFor();
  await eventually(() => haveTestsTheirIcons(editor));
}

/** The icon of each test is at its line, also after the edit that moved it. */
async function haveTestsTheirIcons(editor: Locator): Promise<boolean> {
  const tops = async (pieces: Locator): Promise<number[]> => {
    const boxes = await Promise.all((await pieces.all()).map((piece) => piece.boundingBox()));
    return boxes.map((box) => Math.round(box?.y ?? NaN)).sort((a, b) => a - b);
  };
  const [lines, icons] = await Promise.all([
    tops(editor.locator('.view-line', { hasText: /^expect/ })),
    tops(editor.locator('.cgmr.testing-run-glyph')),
  ]);
  return lines.length > 0 && lines.join(' ') === icons.join(' ');
}

/** Hover by key on the place behind a text. */
function hover(at: string, says: string) {
  return async (screen: Screen): Promise<void> => {
    const { page } = screen;
    await screen.goTo(at);
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Control+k');
    await page.keyboard.press('Control+i');
    await hoverOf(screen).getByText(says).first().waitFor();
  };
}

function hoverOf({ page }: Screen): Locator {
  return page.locator('.monaco-hover:not(.hidden)');
}

async function definition(screen: Screen): Promise<void> {
  const { page } = screen;
  await page.keyboard.press('Escape');
  await screen.goTo('part selector : lever-3');
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('F12');
  await page.locator('.monaco-editor[data-uri^="lugwork:/parts/levers.lug"]').getByText('type').first().waitFor();
}

async function references(screen: Screen): Promise<void> {
  const { page } = screen;
  await screen.command('View: Close Editor');
  await screen.goTo('part neck');
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Shift+F12');
  await page.locator('.reference-zone-widget .monaco-list-row').nth(1).waitFor();
}

async function rename(screen: Screen): Promise<void> {
  const { page } = screen;
  await page.keyboard.press('Escape');
  await screen.goTo('part neck');
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('F2');
  await page.locator('.rename-box input:focus').waitFor();
  await page.keyboard.type('front');
}

async function renamed(screen: Screen): Promise<void> {
  await screen.page.keyboard.press('Enter');
  await lineOf(textOf(screen, example), 'wire front.hot').waitFor();
  await (await drawingOf(screen)).locator('[aria-label^="front, single-coil"]').waitFor();
}

/** The outline, the breadcrumb above the text, and the text as it was. */
async function outline(screen: Screen): Promise<void> {
  const { page } = screen;
  await toText(screen);
  await page.keyboard.press('Control+z');
  await lineOf(textOf(screen, example), 'wire neck.hot').waitFor();
  await screen.command('Explorer: Focus on Outline View');
  await page.locator('.outline-tree').getByText('selector').first().waitFor();
}

export const inTheText: Stations = {
  example: openExample,
  broken,
  message,
  lamp,
  fixes,
  fixed,
  'hover-lug': hover('wire bridge.hot', 'hot'),
  'hover-part': hover('part bridge', 'single-coil'),
  'hover-value': hover('single-coil 6.9k', '6.9'),
  'hover-position': hover('selector "bridge', 'bridge'),
  definition,
  references,
  rename,
  renamed,
  outline,
};
