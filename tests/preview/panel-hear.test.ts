/** Hearing in the panel: silent until it is asked for, and the setting that the extension sends is what is heard. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { root } from '../harness/checkout.js';
import { openPanel, type PanelPage } from './harness.js';
import { atRest, messagesOf, playedOf } from './messages.js';

const text = readFileSync(join(root, 'tests/editor/workspace/two-pickups.lug'), 'utf8');
let panel: PanelPage;

beforeAll(async () => {
  panel = await openPanel();
  for (const message of await messagesOf(text)) await panel.send(message);
  await panel.page.locator('.frame svg.played').waitFor();
}, 120_000);
afterEach(() => expect(panel.complaints).toEqual([]));
afterAll(() => panel.close());

test('strings are heard only when they are asked for, say so, and are stopped by Escape', async () => {
  const { page } = panel;
  await page.evaluate(
    `(() => { window.opened = []; const Own = AudioContext; window.AudioContext = class extends Own { constructor() { super(); opened.push(this); } }; })()`,
  );
  await panel.send(playedOf(text, { positions: { selector: '3' }, rotations: {} }));
  await page.locator('.says', { hasText: 'sounds neck' }).waitFor();
  expect(await page.evaluate('opened.length')).toBe(0);
  await page.getByRole('button', { name: 'Play the strings' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('status').filter({ hasText: 'Playing. Escape stops it.' }).waitFor();
  expect(await page.evaluate('opened.length')).toBe(1);
  // A setting that arrives meanwhile goes on in the same sound.
  await panel.send(playedOf(text, atRest));
  await page.keyboard.press('Escape');
  await page.getByRole('status').filter({ hasText: 'Stopped.' }).waitFor();
  await expect.poll(() => page.evaluate('opened.map(({ state }) => state)')).toEqual(['closed']);
});
