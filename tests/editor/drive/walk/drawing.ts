/** The walk through the drawing: what is turned and lit, wires drawn by hand and by key, a name changed, lugs copied, figures asked. */
import type { Frame } from 'playwright-core';
import type { Screen } from '../screen.js';
import { drawingOf, example, lineOf, openExample, revert, textOf, type Stations } from './place.js';

/** The wire that is drawn by hand, whichever of its ends is named first. */
const drawn = 'path[aria-label*="selector.A3"][aria-label*="output.sleeve"]';

async function chosen(screen: Screen): Promise<void> {
  await openExample(screen);
  const panel = await drawingOf(screen);
  await panel.locator('.positions tbody tr', { hasText: 'neck' }).last().click();
  await panel.locator('.says', { hasText: 'sounds neck' }).waitFor();
}

async function turned(screen: Screen): Promise<void> {
  const panel = await drawingOf(screen);
  const slider = panel.getByRole('slider', { name: 'tone' });
  await slider.focus();
  for (let step = 0; step < 50; step++) await screen.page.keyboard.press('ArrowLeft');
  await panel.locator('.says', { hasText: 'tone 5' }).waitFor();
}

/** What is at a pot, with its live control; its middle is the case, to which one solders. */
async function card(screen: Screen): Promise<void> {
  const panel = await drawingOf(screen);
  await panel.locator('.reset').click();
  await screen.pointAt(panel.locator('[aria-label^="volume, pot"]').first());
  await panel.locator('.details').getByRole('slider', { name: 'volume' }).waitFor();
  await panel.locator('.details .about > *').first().waitFor();
}

/** Begun at a free lug, let go over another: the line follows, the lug under it is marked. */
async function dragging(screen: Screen): Promise<void> {
  const { page } = screen;
  const panel = await drawingOf(screen);
  await page.mouse.move(5, 5);
  await page.keyboard.press('Escape');
  await grasp(screen, panel, 'selector.A3', 'output.sleeve');
  await panel.locator('.target [aria-label^="lug output.sleeve"]').waitFor();
  await panel.locator('.hint', { hasText: 'selector.A3' }).waitFor();
}

async function dragged(screen: Screen): Promise<void> {
  await screen.page.mouse.up();
  await lineOf(textOf(screen, example), 'wire selector.A3 to output.sleeve').waitFor();
  const panel = await drawingOf(screen);
  await panel.locator(drawn).waitFor();
}

/** The end of that wire taken to another lug changes its line. */
async function endMoved(screen: Screen): Promise<void> {
  const { page } = screen;
  const panel = await drawingOf(screen);
  const [x, y] = await panel.evaluate<readonly [number, number]>(`(() => {
    const path = document.querySelector('${drawn}');
    const at = path.getPointAtLength(14).matrixTransform(path.getScreenCTM());
    return [at.x, at.y];
  })()`);
  const frame = await (await panel.frameElement()).boundingBox();
  await page.mouse.move(frame!.x + x, frame!.y + y);
  await page.mouse.down();
  await moveTo(screen, panel, 'tone.3');
  await panel.locator('.target [aria-label^="lug tone.3"]').waitFor();
  await page.mouse.up();
  await lineOf(textOf(screen, example), 'wire tone.3 to output.sleeve')
    .or(lineOf(textOf(screen, example), 'wire selector.A3 to tone.3'))
    .waitFor();
}

/** The same by keyboard: `w` at a lug, and again at another. */
async function byKey(screen: Screen): Promise<void> {
  const { page } = screen;
  await revert(screen);
  const panel = await drawingOf(screen);
  await panel.locator('[aria-label^="lug selector.A3"]').focus();
  await page.keyboard.press('w');
  await panel.locator('.hint', { hasText: 'A wire from selector.A3' }).waitFor();
  await panel.locator('[aria-label^="lug tone.3"]').focus();
}

async function byKeyDone(screen: Screen): Promise<void> {
  await screen.page.keyboard.press('w');
  await lineOf(textOf(screen, example), 'wire selector.A3 to tone.3').waitFor();
}

/** F2 on a part of the drawing renames it in the text. */
async function rename(screen: Screen): Promise<void> {
  const { page } = screen;
  await revert(screen);
  const panel = await drawingOf(screen);
  await panel.locator('[aria-label^="volume, pot"]').first().focus();
  await page.keyboard.press('F2');
  await page.locator('.rename-box input:focus').waitFor();
  await page.keyboard.type('loud');
}

async function renamed(screen: Screen): Promise<void> {
  await screen.page.keyboard.press('Enter');
  await lineOf(textOf(screen, example), 'part loud').waitFor();
  await (await drawingOf(screen)).locator('[aria-label^="loud, pot"]').first().waitFor();
}

async function copied(screen: Screen): Promise<void> {
  await revert(screen);
  await screen.goTo('part selector');
  await screen.command('Lugwork: Copy the Lugs of the Part at the Cursor');
  await screen.page.locator('.statusbar', { hasText: /\d+ lugs copied/ }).waitFor();
}

/** From the player's side, ground as marks. */
async function otherSide(screen: Screen): Promise<void> {
  const panel = await drawingOf(screen);
  await panel.getByText('Player', { exact: true }).click({ force: true });
  await panel.getByText('Marks', { exact: true }).click({ force: true });
  await panel.locator('.frame .mark').first().waitFor();
}

/** The last complete drawing stays while the text is broken. */
async function broken(screen: Screen): Promise<void> {
  const panel = await drawingOf(screen);
  await panel.getByText('Solder', { exact: true }).click({ force: true });
  await panel.getByText('Automatic', { exact: true }).click({ force: true });
  await screen.goTo('to output.tip');
  await screen.page.keyboard.type('x');
  await panel.locator('.banner', { hasText: 'last complete drawing' }).waitFor();
}

/** The status item leads to the table of positions. */
async function positions(screen: Screen): Promise<void> {
  await screen.page.keyboard.press('Backspace');
  const item = screen.page.locator('.statusbar [id$="overview"]', { hasText: '3 positions, no findings' });
  await item.click();
  await (await drawingOf(screen)).locator('summary:focus', { hasText: 'Positions' }).waitFor();
}

async function grasp(screen: Screen, panel: Frame, from: string, to: string): Promise<void> {
  await moveTo(screen, panel, from);
  await screen.page.mouse.down();
  await moveTo(screen, panel, to);
}

async function moveTo({ page }: Screen, panel: Frame, lug: string): Promise<void> {
  const box = (await panel.locator(`[aria-label^="lug ${lug}"]`).boundingBox())!;
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2, { steps: 12 });
}

export const inTheDrawing: Stations = {
  'drawing-chosen': chosen,
  'drawing-turned': turned,
  'drawing-card': card,
  'drawing-dragging': dragging,
  'drawing-dragged': dragged,
  'drawing-end-moved': endMoved,
  'drawing-by-key': byKey,
  'drawing-by-key-done': byKeyDone,
  'drawing-rename': rename,
  'drawing-renamed': renamed,
  'drawing-lugs-copied': copied,
  'drawing-side': otherSide,
  'drawing-broken': broken,
  positions,
};
