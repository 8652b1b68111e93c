/** The drawing panel used: saved by both ways, seen from the other side, driven by keyboard alone, held to be accessible in each theme. */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Frame } from 'playwright-core';
import { alone, openDrawing, panelOf } from './drawing.js';
import { eventually, type Screen } from './screen.js';

/** By the panel's own button; the editor asks where, and the file stands alone. */
export async function savedSvg(screen: Screen): Promise<void> {
  const panel = await openDrawing(screen, 'two-pickups.lug');
  await panel.locator('.positions tbody tr', { hasText: 'neck' }).last().click();
  await panel.locator('.says', { hasText: 'sounds neck' }).waitFor();
  await panel.getByRole('button', { name: 'Save the drawing as SVG' }).click();
  const svg = (await saved(screen, 'two-pickups.svg')).toString();
  for (const part of ['<svg xmlns', '<style>', 'selector &quot;neck&quot;', 'Unplug from the amplifier'])
    if (!svg.includes(part) && !svg.includes(part.replaceAll('&quot;', '"'))) throw new Error(`the SVG holds no ${part}`);
}

/** By the command, from the text. */
export async function savedPng(screen: Screen): Promise<void> {
  await screen.page.locator('.part.editor .monaco-editor .view-lines').first().click();
  await screen.command('Lugwork: Export the Drawing as PNG');
  const png = await saved(screen, 'two-pickups.png');
  if (png.readUInt32BE(0) !== 0x89504e47 || png.readUInt32BE(16) < 1000) throw new Error('the PNG is none, or is small');
}

/** The page for everyone, by the command: one file that asks for nothing, with the circuit in it. */
export async function savedPage(screen: Screen): Promise<void> {
  await screen.page.locator('.part.editor .monaco-editor .view-lines').first().click();
  await screen.command('Lugwork: Export One Page for Everyone');
  const html = (await saved(screen, 'two-pickups.page.html', 'Save the Page')).toString();
  for (const part of ['<!doctype html>', 'Content-Security-Policy', 'What each position gives', 'Unplug from the amplifier'])
    if (!html.toLowerCase().includes(part.toLowerCase())) throw new Error(`the page holds no ${part}`);
  if (/(src|href)="(?!#|data:)/.test(html)) throw new Error('the page refers to something outside itself');
}

async function saved({ page, folder }: Screen, name: string, title = 'Save the Drawing'): Promise<Buffer> {
  const dialog = page.locator('.quick-input-widget:visible');
  await dialog.getByText(title).first().waitFor();
  // The dialog of a browser's editor goes to the folder first, and then offers the name.
  const offered = dialog.locator('input.input').first();
  await eventually(async () => (await offered.inputValue()).endsWith(`/workspace/${name}`));
  await page.keyboard.press('Enter');
  await dialog.waitFor({ state: 'hidden' });
  const path = join(folder, 'workspace', name);
  await eventually(() => Promise.resolve(existsSync(path) && readFileSync(path).length > 0));
  return readFileSync(path);
}

/** From the player's side everything is mirrored, and ground is told by marks. */
export async function otherSide(screen: Screen): Promise<void> {
  const panel = await openDrawing(screen, 'two-pickups.lug');
  const jack = panel.locator('[aria-label^="output, jack"]');
  const pickup = panel.locator('[aria-label^="neck, single-coil"]');
  const isLeft = async (): Promise<boolean> => (await jack.boundingBox())!.x < (await pickup.boundingBox())!.x;
  if (await isLeft()) throw new Error('the jack lies left of the pickups');
  // What is clicked is the choice under its word.
  await panel.getByText('Player', { exact: true }).click({ force: true });
  await panel.getByText('Marks', { exact: true }).click({ force: true });
  await panel.locator('.frame .mark').first().waitFor();
  await panel.locator('h1', { hasText: 'player’s side' }).waitFor({ state: 'attached' });
  if (!(await isLeft())) throw new Error('nothing is mirrored');
}

/** The panel alone and wide; a double click in the drawing turns its switch on. */
export async function wide(screen: Screen): Promise<void> {
  await alone(screen);
  const panel = await openDrawing(screen, 'two-pickups.lug');
  await panel.locator('[aria-label^="selector, lever"]').dblclick();
  await panel.locator('.says', { hasText: 'selector "both"' }).waitFor();
  await screen.command('View: Focus Next Editor Group');
  await screen.command('View: Maximize Editor Group and Hide Side Bars');
  const [table, frame] = [panel.locator('.positions'), panel.locator('.frame')];
  await eventually(async () => {
    const [a, b] = await Promise.all([table.boundingBox(), frame.boundingBox()]);
    return a !== null && b !== null && a.x > b.x + b.width;
  });
}

/** No mouse from here on: into the panel, through the drawing, a switch turned, its card read, and back into the text. */
export async function byKeyboard(screen: Screen): Promise<void> {
  const { page } = screen;
  await openDrawing(screen, 'two-pickups.lug');
  await screen.command('View: Focus Next Editor Group');
  const frame = await frameOf(screen);
  const focused = (): Promise<string> =>
    frame.evaluate<string>('document.activeElement?.getAttribute("aria-label") ?? document.activeElement?.value ?? ""');
  const press = async (key: string, isThere: (focus: string) => boolean): Promise<string> => {
    for (let tries = 0; tries < 40; tries++) {
      await page.keyboard.press(key);
      const focus = await focused();
      if (isThere(focus)) return focus;
    }
    throw new Error(`${key} does not lead there; focused is ${await focused()}`);
  };
  await press('Tab', (focus) => focus.includes(', ') && !focus.startsWith('Read the response'));
  for (const key of ['ArrowRight', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowRight'])
    if ((await focused()).startsWith('selector,')) break;
    else await press(key, () => true);
  await frame.evaluate('document.querySelector(\'[aria-label^="selector, lever"]\').focus()');
  await page.keyboard.press('PageUp');
  await panelOf(screen).locator('.says', { hasText: 'parallel' }).waitFor();
  await page.keyboard.press('i');
  await panelOf(screen).locator('.details .about > *').first().waitFor();
  await page.keyboard.press('Escape');
  if (!(await focused()).startsWith('selector,')) throw new Error('the focus did not come back');
  await press('Tab', (focus) => focus === '2' || focus === 'both');
  await page.keyboard.press('ArrowRight');
  await panelOf(screen).locator('.says', { hasText: 'sounds neck' }).waitFor();
  await frame.evaluate('document.querySelector(\'[aria-label^="lug volume.3"]\').focus()');
  await page.keyboard.press('Enter');
  await page.locator('.statusbar', { hasText: 'Ln 15' }).waitFor();
}

/** The rules of accessibility, on the panel as the editor's own theme colours it, with a finding shown and its card open. */
export async function accessible(screen: Screen): Promise<void> {
  await alone(screen);
  const panel = await openDrawing(screen, 'moved-wire.lug');
  const frame = await frameOf(screen);
  const rules = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  await frame.evaluate(rules);
  await check(frame);
  await panel.locator('.findings li button').first().click();
  await panel.locator('.details .fix').first().waitFor();
  await check(frame);
}

async function check(frame: Frame): Promise<void> {
  const found = await frame.evaluate<string[]>(
    'axe.run(document).then(({ violations }) => violations.flatMap(({ id, nodes }) => nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 200)} ${failureSummary}`)))',
  );
  if (found.length > 0) throw new Error(found.slice(0, 4).join('\n'));
}

/** The innermost page of the panel, in which scripts can be run. */
export async function frameOf({ page }: Screen): Promise<Frame> {
  for (const frame of page.frames()) if ((await frame.locator('.positions tbody tr').count()) > 0) return frame;
  throw new Error('no panel is open');
}
