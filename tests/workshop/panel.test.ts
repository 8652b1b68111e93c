/** The sheet's panel in a browser: real bundles, the real page and policy, a stand-in for the editor. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, type BuildOptions } from 'esbuild';
import type { Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { createNonce, panelPage } from '../../extension/preview/html.js';
import type { FromSheet, ToSheet } from '../../extension/sheet/protocol.js';
import { draw, simpleLayout } from '../../language/drawing/index.js';
import { buildOf, benchSheet, readingPlaces } from '../../language/workshop/index.js';
import { openBrowser, type OpenBrowser } from '../editor/hosts/browser.js';
import { root } from '../harness/checkout.js';
import { circuitOf } from '../circuit/harness.js';

const origin = 'http://panel.localhost';
const text = readFileSync(join(root, 'examples/bass-two-circuits-four-cavities.lug'), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'lw-sheet-'));
const complaints: string[] = [];
let browser: OpenBrowser;
let page: Page;

beforeAll(async () => {
  const { extensionBundles } = (await import(join(root, 'extension', 'scripts', 'bundles.mjs'))) as {
    extensionBundles: (BuildOptions & { outfile: string })[];
  };
  for (const options of extensionBundles.filter(({ outfile }) => outfile.includes('sheet-panel'))) {
    const outfile = join(folder, options.outfile.split('/').at(-1)!);
    await build({ absWorkingDir: root, bundle: true, logLevel: 'warning', ...options, outfile });
  }
  const html = panelPage({
    title: 'Bench sheet',
    script: `${origin}/sheet-panel.js`,
    style: `${origin}/sheet-panel.css`,
    source: origin,
    nonce: createNonce(),
  });
  browser = await openBrowser(folder, { width: 900, height: 1100 });
  page = browser.page;
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.route(`${origin}/**`, (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    if (name === '') return route.fulfill({ contentType: 'text/html', body: html });
    if (!name.startsWith('sheet-panel')) return route.fulfill({ status: 204 });
    const contentType = name.endsWith('.css') ? 'text/css' : 'text/javascript';
    return route.fulfill({ contentType, body: readFileSync(join(folder, name)) });
  });
  await page.addInitScript(`
    window.sent = [];
    window.acquireVsCodeApi = () => ({
      postMessage: (message) => window.sent.push(message),
      getState: () => window.kept,
      setState: (state) => (window.kept = state),
    });`);
  await page.goto(`${origin}/`);
  await show(text);
}, 120_000);
afterEach(() => expect(complaints).toEqual([]));
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
});

async function send(message: ToSheet): Promise<void> {
  await page.evaluate(`window.postMessage(${JSON.stringify(message)}, '*')`);
}
async function show(circuit: string, done: readonly string[] = [], number = 1): Promise<void> {
  const made = circuitOf(circuit);
  const sheet = benchSheet(buildOf(made), { withoutDrawing: true });
  await send({
    kind: 'sheet',
    state: { uri: 'file:///circuits/no-17.lug', number },
    sheet,
    batch: made.batch,
    isRecord: made.record !== undefined,
    done,
    recorded: [],
  });
  await page.locator('.progress', { hasText: `${new Set(done).size} of` }).waitFor();
}
async function sent<K extends FromSheet['kind']>(kind: K): Promise<Extract<FromSheet, { kind: K }>[]> {
  return page.evaluate(`window.sent.filter((message) => message.kind === ${JSON.stringify(kind)})`);
}
const focused = (): Promise<string | null> => page.evaluate('document.activeElement.getAttribute("data-key")');

/** The mean of what the picture paints, 0 for black and 255 for white. */
const brightness = (): Promise<number> =>
  page.evaluate(`(async () => {
    const image = document.querySelector('img');
    await image.decode();
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [image.naturalWidth, image.naturalHeight];
    const pen = canvas.getContext('2d');
    pen.drawImage(image, 0, 0);
    const { data } = pen.getImageData(0, 0, canvas.width, canvas.height);
    let [sum, count] = [0, 0];
    for (let i = 0; i < data.length; i += 4) if (data[i + 3] > 128) { sum += data[i + 1]; count++; }
    return sum / count;
  })()`);

describe('what is shown', () => {
  test('cautions stand before every step, and every row has its box', async () => {
    const order = await page.evaluate<number>(
      'document.querySelector(".cautions").compareDocumentPosition(document.querySelector("input[type=checkbox]"))',
    );
    // DOCUMENT_POSITION_FOLLOWING
    expect(order & 4).toBe(4);
    const rows = benchSheet(buildOf(circuitOf(text))).sections.flatMap(({ blocks }) =>
      blocks.flatMap((block) => (block.kind === 'ticks' ? block.rows.filter(({ isHead }) => isHead !== true) : [])),
    );
    expect(await page.locator('input[type=checkbox]').count()).toBe(rows.length);
    expect(await page.locator('.progress').textContent()).toBe(`0 of ${rows.length} done`);
  });

  test('the first open row is the current step', async () => {
    expect(await page.locator('[aria-current=step]').textContent()).toContain('Mount circuit');
  });

  test('a broken text is told above the last sheet', async () => {
    await send({ kind: 'banner', text: 'The text has an error. This is the last complete sheet.' });
    await page.locator('.banner', { hasText: 'last complete sheet' }).waitFor();
    await send({ kind: 'banner', text: '' });
    await page.locator('.banner').waitFor({ state: 'hidden' });
  });
});

describe('the drawing', () => {
  test('is a picture before the solder order, and stays through a new sheet', async () => {
    expect(await page.locator('.drawing').count()).toBe(1);
    expect(await page.locator('.drawing').isVisible()).toBe(false);
    const { scene } = await draw(circuitOf(text), (graph) => Promise.resolve(simpleLayout(graph)), {
      grounds: 'auto',
      side: 'solder',
    });
    await send({ kind: 'picture', scene });
    const image = page.getByRole('img', { name: 'Wiring of Alder Lane no. 17' });
    await image.waitFor();
    await page.evaluate('document.querySelector("img").decode()');
    // The picture has the drawing's own proportions.
    const [width, height] = await page.evaluate<[number, number]>(
      '[document.querySelector("img").naturalWidth, document.querySelector("img").naturalHeight]',
    );
    expect(width / height).toBeCloseTo(scene.width / scene.height, 1);
    // DOCUMENT_POSITION_FOLLOWING
    const order =
      'document.querySelector("img").compareDocumentPosition(document.querySelector("section[aria-label=\'Solder order\']"))';
    expect((await page.evaluate<number>(order)) & 4).toBe(4);
    await show(text);
    expect(await image.isVisible()).toBe(true);
    // A change of the colour theme changes it at once.
    const before = await brightness();
    const source = await page.evaluate<string>('document.querySelector("img").src');
    await page.evaluate('document.body.classList.add("vscode-dark")');
    await page.waitForFunction(`document.querySelector("img").src !== ${JSON.stringify(source)}`);
    expect(Math.abs((await brightness()) - before)).toBeGreaterThan(60);
    await page.evaluate('document.body.classList.remove("vscode-dark")');
    await page.getByRole('button', { name: 'Open the drawing' }).click();
    expect(await sent('drawing')).toHaveLength(1);
  });
});

describe('what is done', () => {
  test('a tick is sent with the key of its row and moves the current step on', async () => {
    await page.getByRole('checkbox', { name: /^1\. Mount circuit/ }).click();
    const [tick] = await sent('tick');
    expect(tick).toMatchObject({ isDone: true });
    expect(tick!.key).toMatch(/^mount switches/);
    expect(await page.locator('[aria-current=step]').textContent()).toContain('Bend neck-volume.1');
  });

  test('a tick survives an edit that does not touch its step, and the focus stays at its row', async () => {
    const key = (await sent('tick'))[0]!.key;
    await page.locator('input[type=checkbox]').nth(5).focus();
    const before = await focused();
    await show(text.replace('wire neck.hot ', 'wire saddle to neck-volume.case black 24awg\nwire neck.hot '), [key]);
    expect(await focused()).toBe(before);
    expect(await page.locator(`input[data-key="${key}"]`).isChecked()).toBe(true);
  });

  test('by keyboard alone: arrows go from box to box, Space and Enter tick and go on', async () => {
    await show(text);
    await page.locator('input[type=checkbox]').first().focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Space');
    expect((await sent('tick')).at(-1)).toMatchObject({ isDone: true });
    expect((await sent('tick')).at(-1)!.key).toMatch(/^wire circuit\.B1/);
    const next = await focused();
    expect(next).toMatch(/^wire neck-volume\.3/);
    await page.keyboard.press('Enter');
    expect((await sent('tick')).at(-1)!.key).toBe(next);
    await page.keyboard.press('ArrowUp');
    expect(await focused()).toBe(next);
  });

  test('Space on a ticked box takes its tick away and stays', async () => {
    const key = (await sent('tick')).at(-1)!.key;
    await page.locator(`input[data-key="${key}"]`).focus();
    await page.keyboard.press('Space');
    expect((await sent('tick')).at(-1)).toMatchObject({ key, isDone: false });
    expect(await focused()).toBe(key);
  });

  test('the next step is the first that is not done, by the command and by its button, in sight and marked', async () => {
    const keys = await page.evaluate<string[]>(
      '[...document.querySelectorAll("input[type=checkbox]")].map(({ dataset }) => dataset.key)',
    );
    await show(text, [keys[0]!, keys[1]!, keys[3]!]);
    await page.evaluate('document.activeElement.blur(); scrollTo(0, document.body.scrollHeight)');
    await send({ kind: 'next' });
    await page.locator(`input[data-key="${keys[2]!}"]:focus`).waitFor();
    const top = (at: string): Promise<number> => page.evaluate(`document.querySelector('${at}').getBoundingClientRect().top`);
    const tools = await page.evaluate<number>('document.querySelector(".tools").getBoundingClientRect().bottom');
    expect(await top('input:focus')).toBeGreaterThan(tools);
    expect(await page.evaluate('getComputedStyle(document.activeElement).outlineStyle')).toBe('solid');
    // The last row ticked, the focus goes back to the one that was left out.
    await show(
      text,
      keys.slice(0, -1).filter((_, i) => i !== 2),
    );
    await page.locator('input[type=checkbox]').last().focus();
    await page.keyboard.press('Space');
    expect(await focused()).toBe(keys[2]);
    await show(text, keys.slice(0, 5));
    await page.getByRole('button', { name: 'Next step' }).focus();
    await page.keyboard.press('Enter');
    expect(await focused()).toBe(keys[5]);
    await show(text, keys);
    await page.getByRole('button', { name: 'Next step' }).focus();
    await page.keyboard.press('Enter');
    expect(
      await page
        .getByRole('status')
        .filter({ hasText: `${keys.length} of ${keys.length} done` })
        .count(),
    ).toBe(1);
    await show(text);
  });

  test('another instrument of the batch is asked for', async () => {
    await show(text.replace('"Alder Lane no. 17"', '"Alder Lane no. 17" { batch 3 }'));
    await page.getByLabel('Instrument').selectOption('2');
    expect(await sent('number')).toEqual([{ kind: 'number', number: 2 }]);
    await show(text.replace('"Alder Lane no. 17"', '"Alder Lane no. 17" { batch 3 }'), [], 2);
    expect(await page.locator('h1').textContent()).toBe('Alder Lane no. 17, 2 of 3');
    expect(await page.evaluate('window.kept')).toEqual({ uri: 'file:///circuits/no-17.lug', number: 2 });
  });

  test('what the record ticks is ticked and taken back in the record alone', async () => {
    const made = benchSheet(buildOf(circuitOf(text)), { withoutDrawing: true, done: new Set(['seat bridge']) });
    await send({
      kind: 'sheet',
      state: { uri: 'file:///x.lug', number: 2 },
      sheet: made,
      batch: 3,
      isRecord: true,
      done: [],
      recorded: [],
    });
    await page.locator('.progress', { hasText: '1 of' }).waitFor();
    expect(await page.locator('input[data-key="seat bridge"]').isDisabled()).toBe(true);
    expect(await page.getByRole('button', { name: 'Record' }).isVisible()).toBe(false);
    expect(await page.getByLabel('Instrument').isVisible()).toBe(false);
    await show(text);
    await page.getByRole('button', { name: 'Record' }).click();
    expect(await sent('record')).toHaveLength(1);
  });

  test('what the record of a circuit’s instrument ticks is ticked beside the circuit, and what is ticked here stays', async () => {
    await show(text);
    const box = (key: string): Locator => page.locator(`input[data-key="${key}"]`);
    await box('seat neck').click();
    await send({ kind: 'readings', readings: [], done: ['seat bridge'] });
    await page.locator('.progress', { hasText: '2 of' }).waitFor();
    expect([await box('seat bridge').isChecked(), await box('seat bridge').isDisabled()]).toEqual([true, true]);
    expect([await box('seat neck').isChecked(), await box('seat neck').isDisabled()]).toEqual([true, false]);
    // A row that does two things is done where the record has both.
    const joint = benchSheet(buildOf(circuitOf(text)))
      .sections.flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === 'ticks' ? block.rows : [])))
      .find(({ keys = [] }) => keys.length > 1)!;
    await send({ kind: 'readings', readings: [], done: joint.keys! });
    await page.locator(`input[data-key=${JSON.stringify(joint.key)}]:disabled`).waitFor();
    expect(await box('seat bridge').isChecked()).toBe(false);
    expect(await box('seat neck').isChecked()).toBe(true);
  });

  test('printing and saving are asked for by buttons', async () => {
    await page.getByRole('button', { name: 'Print' }).click();
    await page.getByRole('button', { name: 'Save' }).click();
    expect([(await sent('print')).length, (await sent('save')).length]).toEqual([1, 1]);
  });
});

describe('readings', () => {
  test('are typed beside their limits: Enter sends one and goes to the next, what the record has is shown', async () => {
    await show(text);
    const fields = page.getByRole('textbox', { name: /^Reading: / });
    const places = readingPlaces(benchSheet(buildOf(circuitOf(text))));
    expect(await fields.count()).toBe(places.length);
    const [first, second] = places;
    await fields.first().focus();
    await page.keyboard.type('6.15k');
    await page.keyboard.press('Enter');
    expect(await sent('reading')).toEqual([{ kind: 'reading', place: first, text: '6.15k' }]);
    expect(await focused()).toBe(JSON.stringify(second));
    const ticks = (await sent('tick')).length;
    await page.keyboard.type('7');
    // What the record says does not touch what is being typed.
    await send({
      kind: 'readings',
      readings: [
        { text: '6.15k', fits: false },
        { text: '8.00k', fits: true },
      ],
      done: [],
    });
    await page.locator('.verdict', { hasText: 'off' }).waitFor();
    expect(await fields.first().getAttribute('aria-invalid')).toBe('true');
    expect(await fields.nth(1).inputValue()).toBe('7');
    await show(text);
    expect(await fields.nth(1).inputValue()).toBe('7');
    expect(await sent('tick')).toHaveLength(ticks);
    await page.evaluate('document.activeElement.value = ""; document.activeElement.blur()');
    await send({ kind: 'readings', readings: [], done: [] });
    await page.locator('.verdict', { hasText: 'off' }).waitFor({ state: 'detached' });
  });
});

describe('what must not happen', () => {
  test('names are text, never markup', async () => {
    await show(`instrument "<img src=x onerror=alert(1)>"
part p : single-coil { lead hot white 3mm }
part sel : lever-3 { positions "<b>1</b>" "</ul><script>x</script>" "&amp;" }
part o : jack
wire p.hot to sel.A1
wire p.ground to o.sleeve
wire sel.A0 to o.tip
`);
    expect(await page.locator('img:not(.drawing img), script:not([nonce])').count()).toBe(0);
    expect(await page.locator('h1').textContent()).toBe('<img src=x onerror=alert(1)>');
    expect(await page.locator('td', { hasText: '<b>1</b>' }).count()).toBeGreaterThan(0);
  });

  test('the policy lets no inline script run', async () => {
    await page.evaluate('document.body.insertAdjacentHTML("beforeend", "<img id=bad src=x: onerror=window.ran=1>")');
    await page.evaluate('document.getElementById("bad").remove()');
    expect(await page.evaluate('window.ran')).toBeUndefined();
    complaints.length = 0;
  });
});

test.each([
  ['light', '#1f1f1f', '#ffffff', '#005fb8'],
  ['dark', '#cccccc', '#1f1f1f', '#0078d4'],
  ['contrast', '#ffffff', '#000000', '#f38518'],
])('axe finds nothing: %s', async (_, ink, paper, focus) => {
  await show(text.replace('"Alder Lane no. 17"', '"Alder Lane no. 17" { batch 2 }'), ['seat bridge']);
  await page.evaluate(`
    for (const [name, value] of Object.entries({
      '--vscode-editor-foreground': '${ink}', '--vscode-editor-background': '${paper}', '--vscode-focusBorder': '${focus}',
      '--vscode-button-secondaryForeground': '${ink}', '--vscode-button-secondaryBackground': '${paper}',
      '--vscode-dropdown-foreground': '${ink}', '--vscode-dropdown-background': '${paper}',
    })) document.documentElement.style.setProperty(name, value)`);
  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  await page.evaluate(axe);
  const found = await page.evaluate<{ violations: { id: string; nodes: { html: string }[] }[] }>('axe.run()');
  expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html}`)).toEqual([]);
  complaints.length = 0;
});
