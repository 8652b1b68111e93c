/** The comparison's panel in a browser with a stand-in for the editor: real bundle, page and policy, an answer of the real server. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, type BuildOptions } from 'esbuild';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { FromCompare, ToCompare } from '../../extension/compare/protocol.js';
import { createNonce, panelPage } from '../../extension/preview/html.js';
import { draw } from '../../language/drawing/index.js';
import { elkLayout } from '../../server/elk.js';
import type { ComparedCircuits } from '../../server/protocol.js';
import { openBrowser } from '../editor/hosts/browser.js';
import { root } from '../harness/checkout.js';
import { startEditor } from '../lsp/harness.js';
import { base, edited } from './cases.js';

const origin = 'http://panel.localhost';
const before = base('phase');
const after = edited(
  before,
  [
    '- wire neck.hot to phase.A1\n- wire neck.ground to phase.B1\n+ wire neck.hot to phase.B1\n+ wire neck.ground to phase.A1',
    '- wire saddle to volume.case black 22awg\n- wire volume.2 to output.tip white 22awg\n+ wire volume.2 to output.tip yellow 22awg',
    '+ wire saddle to output.sleeve black 22awg\n+ part bleed : capacitor 680pF film from volume.3 to volume.2',
  ].join('\n'),
);

const folder = mkdtempSync(join(tmpdir(), 'lw-compare-'));
let page: Page;
let close: () => Promise<unknown>;
const complaints: string[] = [];
const send = (message: ToCompare) => page.evaluate(`window.postMessage(${JSON.stringify(message)}, '*')`);

/** What the server answers to the panel. */
async function compared(old: string, now: string): Promise<ComparedCircuits> {
  const editor = await startEditor({ host: { draw: () => (_, circuit, options) => draw(circuit, elkLayout, options) } });
  const { uri } = await editor.open('no-44.lug', now);
  return (await editor.ask<ComparedCircuits | null>('lugwork/compare', { uri, before: { text: old } }))!;
}

beforeAll(async () => {
  const { extensionBundles } = (await import(join(root, 'extension', 'scripts', 'bundles.mjs'))) as {
    extensionBundles: (BuildOptions & { outfile: string })[];
  };
  for (const options of extensionBundles.filter(({ outfile }) => outfile.includes('compare-panel')))
    await build({
      absWorkingDir: root,
      bundle: true,
      logLevel: 'warning',
      ...options,
      outfile: join(folder, options.outfile.split('/').at(-1)!),
    });
  const html = panelPage({
    title: 'Comparison of Circuits',
    script: `${origin}/compare-panel.js`,
    style: `${origin}/compare-panel.css`,
    source: origin,
    nonce: createNonce(),
  });
  const browser = await openBrowser(folder, { width: 1100, height: 1200 });
  ({ page } = browser);
  close = () => browser.close();
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.route(`${origin}/**`, (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    if (name === '')
      return route.fulfill({ contentType: 'text/html', body: html.replace('<body>', '<body class="vscode-light">') });
    if (!name.startsWith('compare-panel')) return route.fulfill({ status: 204 });
    const contentType = name.endsWith('.css') ? 'text/css' : 'text/javascript';
    return route.fulfill({ contentType, body: readFileSync(join(folder, name)) });
  });
  await page.addInitScript(
    'window.sent = []; window.acquireVsCodeApi = () => ({ postMessage: (message) => window.sent.push(message), getState: () => undefined, setState: (state) => (window.kept = state) });',
  );
  await page.goto(`${origin}/`);
  await page.locator('main').waitFor();
  await send({ kind: 'comparison', before: 'last commit', after: 'no-44.lug', compared: await compared(before, after) });
  await page.locator('figure svg').nth(1).waitFor();
});
afterAll(async () => {
  await close();
  rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
});

const marked = (side: number) => page.locator('figure').nth(side).locator('.change-badge text').allTextContents();

test('both drawings stand side by side, their changes told by letters', async () => {
  expect(await page.locator('h1').textContent()).toBe('no-44.lug: electrical change');
  expect(await page.locator('figcaption').allTextContents()).toEqual(['Before: last commit', 'Now: no-44.lug']);
  // Before: two ends that move, a wire that changes its colour, and the strings' wire that moves; after: the new part besides.
  expect((await marked(0)).map((text) => text[0]).sort()).toEqual(['C', 'M', 'M', 'M']);
  expect((await marked(1)).map((text) => text[0]).sort()).toEqual(['C', 'M', 'M', 'M', 'N']);
});

test('badges cover no letters and no other badge', async () => {
  const boxes = await page.evaluate<{ x: number; y: number; width: number; height: number; badge: boolean; figure: number }[]>(
    `[...document.querySelectorAll('figure')].flatMap((figure, index) => [...figure.querySelectorAll('.change-badge rect, svg text')]
      .filter((node) => node.localName === 'rect' || node.closest('.change-badge') === null)
      .map((node) => ({ ...node.getBoundingClientRect().toJSON(), badge: node.localName === 'rect', figure: index })))`,
  );
  const badges = boxes.filter(({ badge }) => badge);
  expect(badges.length).toBe(9);
  const meets = (a: (typeof boxes)[number], b: (typeof boxes)[number]) =>
    a.figure === b.figure && a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
  expect(badges.filter((badge) => boxes.some((other) => other !== badge && meets(badge, other)))).toEqual([]);
});

test('a change that is chosen is marked in both drawings, and what is chosen in one is marked in the other', async () => {
  const button = page.locator('.changes button', { hasText: 'wire neck.hot to phase.A1' });
  await button.focus();
  await page.keyboard.press('Enter');
  expect(await button.getAttribute('aria-pressed')).toBe('true');
  const chosen = () =>
    page.evaluate<string[]>(
      `[...document.querySelectorAll('.chosen .hit')].map((hit) => hit.getAttribute('aria-label').split(/[,;]/)[0])`,
    );
  expect(await chosen()).toEqual(['wire L1 from neck.hot to phase.A1', 'wire L1 from neck.hot to phase.B1']);
  await page.locator('figure').nth(1).locator('[aria-label^="volume, pot"]').first().focus();
  await page.keyboard.press('Enter');
  expect((await chosen()).map((label) => label.split(' ')[0])).toEqual(['volume', 'volume']);
});

test('the table tells the positions that changed', async () => {
  const rows = await page.locator('table tbody tr').allTextContents();
  expect(
    rows.some((row) => row.startsWith('selector "both", phase "as wound"') && row.includes('hum cancelled becomes present')),
  ).toBe(true);
});

test('a way through a drawing by arrow keys, a way to the text by F12', async () => {
  const first = page.locator('figure').first().locator('.hit[tabindex="0"]');
  await first.focus();
  const label = await first.getAttribute('aria-label');
  await page.keyboard.press('ArrowRight');
  expect(await page.evaluate('document.activeElement.getAttribute("aria-label")')).not.toBe(label);
  await page.locator('.changes button').first().focus();
  await page.keyboard.press('F12');
  const sent = await page.evaluate<FromCompare[]>('window.sent');
  expect(sent).toContainEqual({ kind: 'go', change: 0 });
});

test.each(['vscode-light', 'vscode-dark', 'vscode-high-contrast'])(
  'axe finds nothing, and the policy refused nothing: %s',
  async (theme) => {
    await page.evaluate(`document.body.className = ${JSON.stringify(theme)}`);
    const [ink, paper] = theme === 'vscode-light' ? ['#3b3b3b', '#ffffff'] : ['#cccccc', '#1f1f1f'];
    for (const [name, value] of [
      ['--vscode-editor-foreground', ink],
      ['--vscode-editor-background', paper],
      ['--vscode-descriptionForeground', ink],
    ])
      await page.evaluate(`document.documentElement.style.setProperty('${name}', '${value}')`);
    const picture = process.env['LUGWORK_PICTURES'];
    if (picture !== undefined) await page.screenshot({ path: join(picture, `compare-${theme}.png`), fullPage: true });
    await page.evaluate(readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'));
    const found = await page.evaluate<unknown[]>(
      'axe.run(document).then(({ violations }) => violations.map(({ id, nodes }) => [id, nodes.slice(0, 3).map(({ html, failureSummary }) => html + failureSummary)]))',
    );
    expect(found).toEqual([]);
    expect(complaints).toEqual([]);
  },
);

test('errors in a version stand first, above the drawings', async () => {
  const broken = after.replace('volume.2 to output.tip', 'volume.9 to output.tip');
  await send({ kind: 'comparison', before: 'last commit', after: 'no-44.lug', compared: await compared(before, broken) });
  await page.locator('.unread li', { hasText: 'the new version has 1 error in its text' }).waitFor();
  expect(await page.locator('h1').textContent()).toBe('no-44.lug: incomplete comparison: 1 error in the text of the new version');
  const [note, picture] = await Promise.all(['.unread', 'figure'].map((found) => page.locator(found).first().boundingBox()));
  expect(note!.y + note!.height).toBeLessThanOrEqual(picture!.y);
});

test('names that look like markup stay names', async () => {
  const hostile = (text: string) =>
    text.replace('Alder Lane no. 44', '<img src=x onerror=alert(1)>').replaceAll('"both"', '"<svg onload=alert(1)>"');
  await send({
    kind: 'comparison',
    before: '<b>x</b>',
    after: '<i>y</i>',
    compared: await compared(hostile(before), hostile(after)),
  });
  await page.locator('h1', { hasText: '<i>y</i>' }).waitFor();
  expect(
    await page.locator('main img, main script, main b, main i, main svg svg, main style, main [onload], main [onerror]').count(),
  ).toBe(0);
});
