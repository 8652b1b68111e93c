/** A large instrument in the panel: opened where it can be read, with an overview; many switches; controls at their parts. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { root } from '../harness/checkout.js';
import { openPanel, type PanelPage } from './harness.js';
import { atRest, messagesOf } from './messages.js';

const text = readFileSync(join(root, 'examples/bass-two-circuits-four-cavities.lug'), 'utf8');
let panel: PanelPage;

beforeAll(async () => {
  panel = await openPanel();
  await panel.page.setViewportSize({ width: 600, height: 890 });
  for (const message of await messagesOf(text)) await panel.send(message);
  await panel.page.locator('.frame svg.played').waitFor();
}, 120_000);
afterEach(() => expect(panel.complaints).toEqual([]));
afterAll(() => panel.close());

/** Pixels for each unit of the drawing. */
const scale = (): Promise<number> =>
  panel.page.evaluate(
    'document.querySelector(".frame svg").clientWidth / document.querySelector(".frame svg").viewBox.baseVal.width',
  );
/** Whether the middle of a part is in sight. */
const isSeen = (name: string): Promise<boolean> =>
  panel.page.evaluate(`{
    const frame = document.querySelector('.frame').getBoundingClientRect();
    const box = document.querySelector('[aria-label^="${name}"]').getBoundingClientRect();
    const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
    x >= frame.left && x <= frame.right && y >= frame.top && y <= frame.bottom;
  }`);

test('it opens at a size that can be read, where reading begins, with an overview', async () => {
  // The smallest letters, those at wires, are 9 units high: more than six pixels.
  expect(await scale()).toBeGreaterThan(0.7);
  // The bridge’s ground is the leftmost part.
  expect(await isSeen('saddle, ')).toBe(true);
  await panel.page.locator('.overview').waitFor();
  await panel.page.getByRole('button', { name: 'Fit the whole drawing' }).click();
  await panel.page.locator('.overview').waitFor({ state: 'hidden' });
  expect(await isSeen('output, jack-stereo')).toBe(true);
  expect(await panel.kept()).toMatchObject({ view: 'whole' });
});

test('a place in the overview is brought into sight, and so is what the cursor stands on', async () => {
  const { page } = panel;
  for (let step = 0; step < 6; step++) await page.getByRole('button', { name: 'Zoom in' }).click();
  const overview = (await page.locator('.overview').boundingBox())!;
  await page.mouse.click(overview.x + overview.width * 0.91, overview.y + overview.height * 0.2);
  expect(await isSeen('output, jack-stereo')).toBe(true);
  expect(await isSeen('circuit, slide-dpdt')).toBe(false);
  await panel.send({ kind: 'cursor', ids: ['part:circuit'] });
  await expect.poll(() => isSeen('circuit, slide-dpdt')).toBe(true);
});

test('the cautions stand beside the drawing in letters of the page, and not a second time in it', async () => {
  const { page } = panel;
  expect(await page.locator('.cautions').textContent()).toMatch(/Unplug from the amplifier .* local code/);
  expect(await page.locator('.frame text', { hasText: 'Unplug' }).count()).toBe(0);
  expect(await page.locator('.frame .note text', { hasText: 'BK black' }).count()).toBe(1);
});

test('the table has a column a switch and names each row by its whole setting', async () => {
  const { page } = panel;
  const heads = await page.locator('.positions thead th').allTextContents();
  expect(heads).toEqual(['circuit', 'filter', 'bass-cut', 'Sounds', 'Hum', 'Reads', 'Peak']);
  await page.getByRole('button', { name: 'circuit "active", filter "round", bass-cut "cut"' }).click();
  expect((await panel.sent('set')).at(-1)!.at.positions).toEqual({
    circuit: '2',
    filter: '3',
    'bass-cut': 'off',
  });
});

test('a part’s own controls stand in what pops up at it, and move with the others', async () => {
  const { page } = panel;
  const part = page.locator('[aria-label^="circuit, slide-dpdt"]');
  await part.focus();
  await page.keyboard.press('i');
  const choice = page.locator('.details').getByRole('radio', { name: 'active' });
  await choice.check({ force: true });
  expect((await panel.sent('set')).at(-1)!.at.positions.circuit).toBe('2');
  expect(await page.locator('.switches').getByRole('radio', { name: 'active' }).isChecked()).toBe(true);
  await page.keyboard.press('Escape');
});

test('Page Up and Page Down turn the switch or pot that is focused, a double click the switch', async () => {
  const { page } = panel;
  await page.getByRole('button', { name: 'Reset all' }).click();
  expect((await panel.sent('set')).at(-1)!.at).toEqual(atRest);
  await page.locator('[aria-label^="circuit, slide-dpdt"]').focus();
  await page.keyboard.press('PageUp');
  expect((await panel.sent('set')).at(-1)!.at.positions).toEqual({ circuit: '2' });
  await page.keyboard.press('PageUp');
  expect((await panel.sent('set')).at(-1)!.at.positions).toEqual({ circuit: '1' });
  await page.locator('[aria-label^="volume, pot"]').focus();
  await page.keyboard.press('PageDown');
  await page.keyboard.press('PageDown');
  expect((await panel.sent('set')).at(-1)!.at.rotations).toEqual({ volume: 8 });
  await page.locator('[aria-label^="circuit, slide-dpdt"]').focus();
  // Where no wire or lug lies over it.
  const [x, y] = await page.evaluate<[number, number]>(`{
    const part = document.querySelector('[aria-label^="circuit, slide-dpdt"]');
    const box = part.getBoundingClientRect();
    const shares = Array.from({ length: 19 }, (_, step) => (step + 1) / 20);
    shares
      .flatMap((down) => shares.map((across) => [box.left + across * box.width, box.top + down * box.height]))
      .find(([x, y]) => document.elementFromPoint(x, y) === part);
  }`);
  await page.mouse.dblclick(x, y);
  expect((await panel.sent('set')).at(-1)!.at.positions).toEqual({ circuit: '2' });
});

test('a badge covers no word of the drawing, at whatever lug it stands', async () => {
  const says = await panel.page.evaluate<string[]>(
    '[...document.querySelectorAll(".frame .hit")].map((hit) => hit.getAttribute("aria-label"))',
  );
  const covering: string[] = [];
  for (const id of says.filter((one) => one.startsWith('lug ')).map((one) => one.replace('lug ', 'lug:'))) {
    await panel.send({ kind: 'findings', findings: [{ number: 0, severity: 'warning', message: id, ids: [id] }] });
    await panel.page.locator(`.hit[aria-label$="warning: ${id}"]`).waitFor({ state: 'attached' });
    const covered = await panel.page.evaluate<number>(`{
      const badge = document.querySelector('.badge circle').getBoundingClientRect();
      [...document.querySelectorAll('.frame .part text, .frame .wire text')]
        .map((node) => node.getBoundingClientRect())
        .filter((word) => badge.left < word.right && word.left < badge.right && badge.top < word.bottom && word.top < badge.bottom).length;
    }`);
    if (covered > 0) covering.push(id);
  }
  expect(covering).toEqual([]);
  await panel.send({ kind: 'findings', findings: [] });
});

test('in a wide panel the table and the response stand beside the drawing, one under the other', async () => {
  const { page } = panel;
  await page.setViewportSize({ width: 1300, height: 900 });
  const [frame, table, plot] = await Promise.all(
    ['.frame', '.positions', '.plot'].map(async (name) => (await page.locator(name).boundingBox())!),
  );
  expect(table!.x).toBeGreaterThan(frame!.x + frame!.width);
  expect(plot!.x).toBeGreaterThan(frame!.x + frame!.width);
  expect(Math.max(plot!.y - table!.y - table!.height, table!.y - plot!.y - plot!.height)).toBeGreaterThanOrEqual(0);
});
