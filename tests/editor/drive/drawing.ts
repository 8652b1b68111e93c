/** The drawing panel on a screen: opened, played, clicked, seen in each theme. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FrameLocator } from 'playwright-core';
import { root } from '../hosts/place.js';
import { accessible, byKeyboard, otherSide, savedPage, savedPng, savedSvg, wide } from './drawing-use.js';
import type { Group } from './pictures.js';
import type { Screen } from './screen.js';

const examples = join(root, 'examples');
const themes = {
  light: 'Default Light Modern',
  dark: 'Default Dark Modern',
  contrast: 'Default High Contrast',
};
const large = { width: 1700, height: 1250 };
/** A screen as it stands on a bench. */
const usual = { width: 1600, height: 1000 };

/** What the panel shows, in a page of its own inside the editor. */
export function panelOf({ page }: Screen): FrameLocator {
  return page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
}

export async function openDrawing(screen: Screen, file: string): Promise<FrameLocator> {
  await screen.openFile(file);
  await screen.command('Lugwork: Open the Drawing Beside the Text');
  const panel = panelOf(screen);
  await panel.locator('.frame svg.played').waitFor({ timeout: 60_000 });
  await panel.locator('.positions tbody tr').first().waitFor();
  return panel;
}

async function played(screen: Screen): Promise<void> {
  const panel = await openDrawing(screen, 'two-pickups.lug');
  await panel.locator('.positions tbody tr', { hasText: 'neck' }).last().click();
  await panel.locator('.says', { hasText: 'sounds neck' }).waitFor();
}

/** A click in the drawing leads to the text, the cursor in the text to the drawing. */
async function clicked(screen: Screen): Promise<void> {
  const panel = panelOf(screen);
  await panel.locator('[aria-label^="lug volume.3"]').click();
  await screen.page.locator('.statusbar', { hasText: 'Ln 15' }).waitFor();
  await panel.locator('.at-cursor > [aria-label^="lug volume.3"]').waitFor();
  await screen.goTo('part saddle');
  await panel.locator('.at-cursor > [aria-label^="saddle"]').waitFor();
}

async function turned(screen: Screen): Promise<void> {
  const panel = panelOf(screen);
  await panel.getByRole('slider', { name: 'volume' }).focus();
  for (let step = 0; step < 30; step++) await screen.page.keyboard.press('ArrowLeft');
  await panel.locator('.says', { hasText: 'volume 7:' }).waitFor();
}

/** A lug that is not there breaks the text; the drawing stays. */
async function broken(screen: Screen): Promise<void> {
  await screen.page.locator('.monaco-editor .view-line').first().click();
  await screen.goTo('to output.sl');
  await screen.page.keyboard.type('x');
  await panelOf(screen).locator('.banner', { hasText: 'last complete drawing' }).waitFor();
}

async function finding(screen: Screen): Promise<void> {
  const panel = await openDrawing(screen, 'moved-wire.lug');
  await panel.locator('.findings li button').first().click();
  await panel.locator('.details .fix').first().waitFor();
}

async function repaired(screen: Screen): Promise<void> {
  const panel = panelOf(screen);
  await panel.locator('.details .fix').first().click();
  await panel.locator('.findings li').first().waitFor({ state: 'hidden' });
}

async function hovered(screen: Screen): Promise<void> {
  const panel = await openDrawing(screen, 'two-pickups.lug');
  await panel.locator('[aria-label^="lug volume.3"]').hover();
  await panel.locator('.details .about > *').first().waitFor();
}

/** The panel comes back with what it showed when the window is loaded again. */
async function reloaded(screen: Screen): Promise<void> {
  const panel = await openDrawing(screen, 'two-pickups.lug');
  await panel.locator('.positions tbody tr', { hasText: 'both' }).last().click();
  await panel.locator('.says', { hasText: 'parallel' }).waitFor();
  await screen.command('Developer: Reload Window');
  await screen.page.locator('.monaco-workbench .part.editor').waitFor({ timeout: 60_000 });
  await panelOf(screen).locator('.says', { hasText: 'parallel' }).waitFor({ timeout: 60_000 });
}

/** Closes every editor and panel. */
export async function alone(screen: Screen): Promise<void> {
  await screen.command('View: Close All Editors');
  await screen.page.locator('iframe.webview').first().waitFor({ state: 'detached' });
}

/** A circuit of the examples with its drawing, alone in the editor. */
function example(file: string) {
  return async (screen: Screen): Promise<void> => {
    await alone(screen);
    await openDrawing(screen, file);
  };
}

/** Every example that is an instrument; what only holds types has nothing to play. */
const instruments = readdirSync(examples)
  .filter((name) => name.endsWith('.lug') && /^instrument /m.test(readFileSync(join(examples, name), 'utf8')))
  .sort();

/** Editors with the panel, one a theme; the web host last. */
export const drawingGroups: readonly Group[] = [
  {
    options: { host: 'node', size: large, settings: { 'workbench.colorTheme': themes.light } },
    pictures: {
      'drawing-played-light': played,
      'drawing-clicked': clicked,
      'drawing-turned': turned,
      'drawing-saved-svg': savedSvg,
      'drawing-saved-png': savedPng,
      'page-saved': savedPage,
      'drawing-broken': broken,
    },
  },
  {
    options: { host: 'node', size: large, settings: { 'workbench.colorTheme': themes.light } },
    pictures: { 'drawing-accessible-light': accessible, 'drawing-wide': wide },
  },
  {
    options: { host: 'node', size: large, settings: { 'workbench.colorTheme': themes.dark } },
    pictures: { 'drawing-accessible-dark': accessible, 'drawing-finding': finding, 'drawing-repaired': repaired },
  },
  {
    options: { host: 'node', size: large, settings: { 'workbench.colorTheme': themes.contrast } },
    pictures: {
      'drawing-accessible-contrast': accessible,
      'drawing-keyboard': byKeyboard,
      'drawing-side': otherSide,
      'drawing-hover': hovered,
      'drawing-reloaded': reloaded,
    },
  },
  ...(['light', 'dark', 'contrast'] as const).map((theme): Group => ({
    options: { host: 'node', size: usual, workspace: examples, settings: { 'workbench.colorTheme': themes[theme] } },
    pictures: Object.fromEntries(instruments.map((name) => [`examples-${theme}-${name.replace('.lug', '')}`, example(name)])),
  })),
  { options: { host: 'web', size: large }, pictures: { 'web-drawing-played': played, 'web-drawing-clicked': clicked } },
];
