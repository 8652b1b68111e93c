/** The panel in a browser: it draws, tells what was done in it, is reached by keyboard, and runs nothing that comes from a file. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { root } from '../harness/checkout.js';
import { openPanel, type PanelPage } from './harness.js';
import { atRest, messagesOf, playedOf } from './messages.js';

const text = readFileSync(join(root, 'tests/editor/workspace/two-pickups.lug'), 'utf8');
const lug = '[aria-label^="lug volume.3"]';
let panel: PanelPage;

beforeAll(async () => {
  panel = await openPanel();
  for (const message of await messagesOf(text)) await panel.send(message);
  await panel.page.locator('.frame svg.played').waitFor();
}, 120_000);
afterEach(() => expect(panel.complaints).toEqual([]));
afterAll(() => panel.close());

describe('what is shown', () => {
  test('every part, lug and wire of the scene is there and has a name', async () => {
    const { page } = panel;
    for (const name of ['bridge, single-coil', 'lug selector.A0', 'volume, pot']) {
      expect(await page.locator(`.hit[aria-label^="${name}"]`).count(), name).toBe(1);
    }
    const nameless = await page.locator('.thing > .hit:not([aria-label])').count();
    expect(nameless).toBe(0);
  });

  test('a switch position closes its contacts and lights the way', async () => {
    const { page } = panel;
    await panel.send(playedOf(text, { positions: { selector: '3' }, rotations: {} }));
    await page.locator('.says', { hasText: 'sounds neck' }).waitFor();
    expect(await page.locator('.contact.closed').count()).toBe(2);
    expect(await page.locator('.part.lit:has([aria-label^="neck,"])').count()).toBe(1);
    expect(await page.locator('.part.idle:has([aria-label^="bridge,"])').count()).toBe(1);
    const key = page.locator('.key li:visible');
    expect(await key.allTextContents()).toEqual(['from the coils to the tip', 'back to the sleeve', 'not in the signal path']);
    // At 0 the volume lays its lug 2 on ground: the way is told as it is then.
    await panel.send(playedOf(text, { positions: {}, rotations: { volume: 0 } }));
    await page.locator('.says', { hasText: 'silent' }).waitFor();
    expect(await key.allTextContents()).not.toContain('from the coils to the tip');
    await panel.send(playedOf(text, atRest));
  });

  test('the response tells its peak and −3 dB point in words', async () => {
    expect(await panel.page.locator('.summary').textContent()).toMatch(
      /^Peak [\d.]+ kHz, \+[\d.]+ dB; −3 dB at [\d.]+ kHz\.( Pale: before the last change\.)?$/,
    );
  });

  test('a broken text keeps the drawing and says so', async () => {
    await panel.send({ kind: 'banner', text: 'The text has an error. This is the last complete drawing.' });
    await panel.page.locator('.banner', { hasText: 'last complete drawing' }).waitFor();
    expect(await panel.page.locator('.frame svg').count()).toBe(1);
    await panel.send({ kind: 'banner', text: '' });
    await panel.page.locator('.banner').waitFor({ state: 'hidden' });
  });
});

test('a hint is listed neither by the editor nor by the panel, and the page as a whole does not scroll', async () => {
  const { page } = panel;
  const finding = { number: 0, severity: 'hint', message: 'follows', ids: [] } as const;
  await panel.send({ kind: 'findings', findings: [{ ...finding, severity: 'error', number: 1 }, finding] });
  await page.locator('.findings li').first().waitFor();
  expect(await page.locator('.findings li').allTextContents()).toEqual(['error follows']);
  await panel.send({ kind: 'findings', findings: [] });
  await page.mouse.wheel(0, 400);
  expect(await page.evaluate('document.documentElement.scrollHeight - innerHeight')).toBeLessThanOrEqual(0);
});

describe('what is done', () => {
  test('a click on a lug asks for its place', async () => {
    await panel.page.locator(lug).click();
    expect((await panel.sent('go')).at(-1)).toEqual({ kind: 'go', id: 'lug:volume.3' });
  });

  test('the middle of a pot, which is its case, shows the pot’s control; a drawing that changes under the mouse shows nothing', async () => {
    const { page } = panel;
    const { x, y, width, height } = (await page.locator('[aria-label^="volume, pot"]').boundingBox())!;
    await page.mouse.move(x + width / 2, y + height / 2);
    await page.locator('.details').getByRole('slider', { name: 'volume' }).waitFor();
    await page.keyboard.press('Escape');
    await page.locator('.details').waitFor({ state: 'hidden' });
    for (const message of await messagesOf(text)) await panel.send(message);
    // Longer than a pointer rests until something pops up.
    await page.waitForTimeout(700);
    expect(await page.locator('.details').isVisible()).toBe(false);
    await page.mouse.move(1, 1);
  });

  test('a drag from lug to lug draws a wire, and a click that ends it goes nowhere', async () => {
    const { page } = panel;
    const before = (await panel.sent('go')).length;
    const [from, to] = await Promise.all([middleOf(lug), middleOf('[aria-label^="lug output.sleeve"]')]);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 20, from.y + 20);
    await page.locator('.drawn-wire').waitFor();
    await page.locator('.hint', { hasText: 'A wire from volume.3' }).waitFor();
    await page.mouse.move(to.x, to.y, { steps: 4 });
    expect(await page.locator('.thing.target').count()).toBe(1);
    await page.mouse.up();
    expect(await panel.sent('wire')).toEqual([{ kind: 'wire', from: 'lug:volume.3', to: 'lug:output.sleeve' }]);
    expect(await page.locator('.drawn-wire, .thing.target, .hint:visible').count()).toBe(0);
    expect(await panel.sent('go')).toHaveLength(before);
  });

  test('the end of a wire is drawn to another lug', async () => {
    const { page } = panel;
    const begin = await endOf('wire:output.tip~volume.2', 'output.tip');
    const to = await middleOf('[aria-label^="lug output.sleeve"]');
    await page.mouse.move(begin.x, begin.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 4 });
    await page.mouse.up();
    expect((await panel.sent('wire')).at(-1)).toEqual({
      kind: 'wire',
      from: 'lug:output.tip',
      to: 'lug:output.sleeve',
      other: 'lug:volume.2',
    });
  });

  test('by keyboard: w at a lug, w at another; Escape gives up', async () => {
    const { page } = panel;
    const count = (await panel.sent('wire')).length;
    await page.locator(lug).focus();
    await page.keyboard.press('w');
    await page.locator('.hint', { hasText: 'press w again' }).waitFor();
    await page.keyboard.press('Escape');
    await page.locator('.hint').waitFor({ state: 'hidden' });
    await page.keyboard.press('w');
    await page.locator('[aria-label^="lug volume.2"]').focus();
    await page.keyboard.press('w');
    expect((await panel.sent('wire')).slice(count)).toEqual([{ kind: 'wire', from: 'lug:volume.3', to: 'lug:volume.2' }]);
  });

  test('a drag that ends nowhere writes nothing, and one beside things moves the drawing', async () => {
    const { page } = panel;
    const count = (await panel.sent('wire')).length;
    const [from, frame] = await Promise.all([middleOf(lug), page.locator('.frame').boundingBox()]);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(frame!.x + 5, frame!.y + 5, { steps: 3 });
    await page.mouse.up();
    expect(await panel.sent('wire')).toHaveLength(count);
    const before = await page.locator('.frame svg').getAttribute('viewBox');
    await page.mouse.move(frame!.x + 5, frame!.y + 5);
    await page.mouse.down();
    await page.mouse.move(frame!.x + 60, frame!.y + 40, { steps: 3 });
    await page.mouse.up();
    expect(await page.locator('.frame svg').getAttribute('viewBox')).not.toBe(before);
    await page.getByRole('button', { name: 'Fit' }).click();
  });

  test('the next reading is typed in place', async () => {
    const { page } = panel;
    const next = { line: 'measured selector "neck" : reads …', where: 'Meter on ohms at the plug' };
    await panel.send({ kind: 'suspects', search: { suspects: [{ says: 'an open coil: neck', ids: ['part:neck'] }], next } });
    await page.locator('.next-reading', { hasText: 'Next reading, selector "neck":' }).waitFor();
    await page.getByRole('textbox', { name: /reads/ }).fill('6.1k');
    await page.keyboard.press('Enter');
    expect(await panel.sent('reading')).toEqual([{ kind: 'reading', line: next.line, text: '6.1k' }]);
    // For another line nothing is typed yet.
    await panel.send({ kind: 'suspects', search: { suspects: [], next: { ...next, line: 'measured : reads …' } } });
    await page.locator('.next-reading', { hasText: 'all controls at rest' }).waitFor();
    expect(await page.getByRole('textbox', { name: /reads/ }).inputValue()).toBe('');
    await panel.send({ kind: 'suspects', search: { suspects: [] } });
    await page.locator('.next-reading').waitFor({ state: 'hidden' });
  });

  test('F2 asks for another name', async () => {
    await panel.page.locator('[aria-label^="volume, pot"]').focus();
    await panel.page.keyboard.press('F2');
    expect((await panel.sent('rename')).at(-1)).toEqual({ kind: 'rename', id: 'part:volume' });
  });

  test('a row of the table sets the switch', async () => {
    await panel.page.locator('.positions tbody tr', { hasText: 'neck' }).last().click();
    expect((await panel.sent('set')).at(-1)!.at.positions).toEqual({ selector: '3' });
    expect(await panel.page.locator('.positions tr.chosen').count()).toBe(1);
    expect(await panel.page.getByRole('radio', { name: 'neck' }).isChecked()).toBe(true);
  });

  test('a pot turned by keyboard sends its rotation and says its value', async () => {
    const slider = panel.page.getByRole('slider', { name: 'volume' });
    await slider.focus();
    await panel.page.keyboard.press('ArrowLeft');
    expect((await panel.sent('set')).at(-1)!.at.rotations).toEqual({ volume: 9.9 });
    expect(await slider.getAttribute('aria-valuetext')).toBe('9.9 of 10');
  });

  test('an echo that comes late takes nothing back', async () => {
    const slider = panel.page.getByRole('slider', { name: 'volume' });
    await panel.send({ kind: 'state', state: { uri: 'file:///x.lug', side: 'solder', grounds: 'auto', at: atRest } });
    await panel.page.locator('input[value="solder"]:checked').waitFor({ state: 'attached' });
    expect(await slider.inputValue()).toBe('9.9');
  });

  test('arrow keys travel, Enter goes to the text, i tells about the thing and Escape comes back', async () => {
    const { page } = panel;
    await page.locator(lug).focus();
    await page.keyboard.press('ArrowLeft');
    const here = await page.evaluate('document.activeElement.getAttribute("aria-label")');
    expect(here).not.toBe('lug volume.3');
    await page.keyboard.press('Enter');
    const id = (await panel.sent('go')).at(-1)!.id;
    await page.keyboard.press('i');
    expect((await panel.sent('ask')).at(-1)!.id).toBe(id);
    await panel.send({ kind: 'about', id, about: { hover: ['**Bold** <b onclick="x">no</b> `code`'], findings: [], fixes: [] } });
    await page.locator('.details strong', { hasText: 'Bold' }).waitFor();
    expect(await page.locator('.details .about b').count()).toBe(0);
    await page.keyboard.press('Escape');
    await page.locator('.details').waitFor({ state: 'hidden' });
    expect(await page.evaluate('document.activeElement.getAttribute("aria-label")')).toBe(here);
  });

  test('the cursor’s place is marked', async () => {
    await panel.send({ kind: 'cursor', ids: ['lug:volume.3'] });
    await panel.page.locator(`.at-cursor > ${lug}`).waitFor();
  });

  test('a finding stands at its lug, its repair is offered and asked for', async () => {
    const { page } = panel;
    const finding = { number: 0, severity: 'error' as const, message: 'Told of this lug.\nFor a reason.', ids: ['lug:volume.3'] };
    await panel.send({ kind: 'findings', findings: [finding] });
    await page.locator('.badge.error').waitFor();
    await page.getByRole('button', { name: 'Told of this lug' }).last().click();
    await panel.send({
      kind: 'about',
      id: 'lug:volume.3',
      about: { hover: [], findings: [finding], fixes: [{ finding: 0, title: 'move the wire' }] },
    });
    await page.getByRole('button', { name: 'Move the wire' }).click();
    expect(await panel.sent('fix')).toEqual([{ kind: 'fix', finding: 0, title: 'move the wire' }]);
    await panel.send({ kind: 'findings', findings: [] });
    // The frame grows when the list goes.
    await page.locator('.findings').waitFor({ state: 'hidden' });
    await page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))');
  });

  test('what the readings suspect is lit and listed, and leads to its place', async () => {
    const { page } = panel;
    await panel.send({ kind: 'suspects', search: { suspects: [{ says: 'a cold joint: volume.3', ids: ['lug:volume.3'] }] } });
    await page.locator(`.suspect > ${lug}`).waitFor();
    await page.getByRole('button', { name: 'a cold joint: volume.3' }).click();
    expect(await page.evaluate('document.activeElement.getAttribute("aria-label")')).toMatch(/^lug volume\.3/);
    await panel.send({ kind: 'suspects', search: { suspects: [] } });
    await page.locator('.suspects').waitFor({ state: 'hidden' });
    expect(await page.locator('.suspect').count()).toBe(0);
  });

  test('zoom, pan and fit by buttons, keys and wheel', async () => {
    const { page } = panel;
    const box = (): Promise<number[]> =>
      page
        .locator('.frame svg')
        .evaluate((svg) =>
          (svg as unknown as { getAttribute(name: string): string }).getAttribute('viewBox').split(' ').map(Number),
        );
    const whole = await box();
    await page.getByRole('button', { name: 'Zoom in' }).click();
    expect((await box())[2]!).toBeLessThan(whole[2]!);
    await page.locator(lug).focus();
    await page.keyboard.press('0');
    expect(await box()).toEqual(whole);
    await page.keyboard.press('Shift+ArrowRight');
    expect((await box())[0]!).toBeGreaterThan(whole[0]!);
    expect(await panel.kept()).toMatchObject({ view: { y: whole[1] }, side: 'solder' });
    await page.getByRole('button', { name: 'Fit the whole drawing' }).click();
    expect(await box()).toEqual(whole);
  });

  test('the other side and the other ground are asked for', async () => {
    await panel.page.getByRole('radio', { name: 'Player' }).check({ force: true });
    expect((await panel.sent('look')).at(-1)).toEqual({ kind: 'look', side: 'player', grounds: 'auto' });
  });

  test('the drawing leaves as SVG that stands alone and as PNG', async () => {
    await panel.send({ kind: 'export', format: 'svg' });
    await panel.send({ kind: 'export', format: 'png' });
    await expect.poll(async () => (await panel.sent('exported')).length, { timeout: 30_000 }).toBe(2);
    const svg = (await panel.sent('exported')).find(({ format }) => format === 'svg') as { text: string };
    expect(svg.text).toMatch(/^<svg xmlns/);
    expect(svg.text).toContain('<style>');
    const head = await panel.page.evaluate('[...window.sent.find(({ format }) => format === "png").bytes.slice(0, 4)]');
    expect(head).toEqual([0x89, 0x50, 0x4e, 0x47]);
  });

  test('a saved drawing has what is seen: badges where they stand, rings, and below it what they mean', async () => {
    const { page } = panel;
    await panel.send({
      kind: 'findings',
      findings: [{ number: 0, severity: 'error', message: 'a <wrong> lug\nmore', ids: ['lug:volume.3'] }],
    });
    await panel.send({ kind: 'suspects', search: { suspects: [{ says: 'a cold joint: volume.2', ids: ['lug:volume.2'] }] } });
    await page.locator('.suspect').first().waitFor();
    const standing = await page.locator('.frame .badge').getAttribute('transform');
    const ring = page.locator('.frame .suspect > .hit').first();
    const [x, y] = await Promise.all(['cx', 'cy'].map((name) => ring.getAttribute(name)));
    await panel.send({ kind: 'export', format: 'svg' });
    await expect.poll(async () => (await panel.sent('exported')).length).toBe(3);
    const { text } = (await panel.sent('exported')).at(-1) as { text: string };
    const errors = await page.evaluate<number>(
      `new DOMParser().parseFromString(${JSON.stringify(text.replace(/<style>.*<\/style>/s, ''))}, 'image/svg+xml').querySelectorAll('parsererror').length`,
    );
    expect(errors).toBe(0);
    expect(text).toContain(`<g class="badge error" transform="${standing}">`);
    expect(text).toMatch(new RegExp(`<g class="suspected"><circle cx="${x}" cy="${y}" r="[\\d.]+"/></g>`));
    expect(text).toContain('>error: a &lt;wrong&gt; lug</text>');
    expect(text).toContain('>1. a cold joint: volume.2</text>');
    await panel.send({ kind: 'findings', findings: [] });
    await panel.send({ kind: 'suspects', search: { suspects: [] } });
    await page.locator('.suspects').waitFor({ state: 'hidden' });
  });
});

test('a change of the colour theme changes the drawing at once', async () => {
  const { page } = panel;
  const ink = (): Promise<string> =>
    page.evaluate("getComputedStyle(document.querySelector('.frame svg')).getPropertyValue('--wire-black')");
  await page.evaluate("document.body.className = 'vscode-light'");
  await page.locator('.frame svg.light').waitFor();
  const before = await ink();
  await page.evaluate("document.body.className = 'vscode-dark'");
  await page.locator('.frame svg.dark').waitFor();
  expect(await ink()).not.toBe(before);
});

test.each(['vscode-light', 'vscode-dark', 'vscode-high-contrast'])('axe finds nothing: %s', async (theme) => {
  const { page } = panel;
  await page.evaluate(`document.body.className = ${JSON.stringify(theme)}`);
  const colours = {
    'vscode-light': ['#3b3b3b', '#ffffff', '#616161'],
    'vscode-dark': ['#cccccc', '#1f1f1f', '#9d9d9d'],
    'vscode-high-contrast': ['#ffffff', '#000000', '#ffffff'],
  }[theme]!;
  const names = ['--vscode-editor-foreground', '--vscode-editor-background', '--vscode-descriptionForeground'];
  for (const [index, name] of names.entries())
    await page.evaluate(`document.documentElement.style.setProperty('${name}', '${colours[index]}')`);
  await page.evaluate("document.documentElement.style.setProperty('--vscode-button-background', '#005fb8')");
  // Through the debugger's own way in, for the page's policy lets no other script run.
  await page.evaluate(readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'));
  const found = await page.evaluate<unknown[]>(
    'axe.run(document).then(({ violations }) => violations.map(({ id, nodes }) => [id, nodes.slice(0, 3).map(({ html, failureSummary }) => html + failureSummary)]))',
  );
  expect(found).toEqual([]);
});

describe('the room', () => {
  const sizes = [
    { width: 900, height: 1100 },
    { width: 1500, height: 700 },
    { width: 320, height: 900 },
    { width: 600, height: 420 },
  ];
  interface Room {
    readonly drawing: { readonly width: number; readonly height: number };
    readonly sections: { readonly width: number; readonly height: number };
    readonly sideways: number;
  }
  const room = (): Promise<Room> =>
    panel.page.evaluate(`(() => {
      const size = (name) => { const { width, height } = document.querySelector(name).getBoundingClientRect(); return { width, height }; };
      const over = (element) => element.scrollWidth - element.clientWidth;
      return { drawing: size('.drawing'), sections: size('.sections'), sideways: over(document.documentElement) + over(document.querySelector('.sections')) };
    })()`);

  test('two thirds are the drawing’s, beside the rest in a wide panel and above it in a tall one; nothing scrolls sideways', async () => {
    for (const size of [...sizes, ...[...sizes].reverse()]) {
      await panel.page.setViewportSize(size);
      await panel.page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))');
      const { drawing, sections, sideways } = await room();
      expect({ size, sideways }).toEqual({ size, sideways: 0 });
      const share = size.width > size.height ? drawing.width / size.width : drawing.height / size.height;
      expect(share).toBeGreaterThan(0.6);
      expect(share).toBeLessThan(0.67);
      expect(sections.width).toBeGreaterThan(100);
    }
  });

  test('names of sliders stay when the panel was wide and is narrow again', async () => {
    const { page } = panel;
    for (const width of [1500, 320]) await page.setViewportSize({ width, height: 900 });
    const names = await page.locator('.shaft span:visible').all();
    expect(names.length).toBeGreaterThan(0);
    for (const name of names) expect((await name.boundingBox())!.width).toBeGreaterThan(40);
    await page.setViewportSize({ width: 900, height: 1100 });
  });

  test('the bar is moved by keys and by the pointer, and what it was moved to is kept', async () => {
    const { page } = panel;
    const bar = page.getByRole('separator', { name: 'Room for the drawing' });
    expect(await bar.getAttribute('aria-valuenow')).toBe('66');
    await bar.press('ArrowUp');
    expect(await bar.getAttribute('aria-valuenow')).toBe('62');
    const { x, y, width } = (await bar.boundingBox())!;
    await page.mouse.move(x + width / 2, y + 4);
    await page.mouse.down();
    await page.mouse.move(x + width / 2, 550);
    await page.mouse.up();
    expect(await bar.getAttribute('aria-valuenow')).toBe('50');
    expect(await panel.kept()).toMatchObject({ sections: { folded: [] } });
    await bar.dblclick();
    expect(await bar.getAttribute('aria-valuenow')).toBe('66');
  });

  test('a section folds, and stays folded', async () => {
    const { page } = panel;
    await page.getByText('Positions, all pots at rest').click();
    await page.locator('.positions').waitFor({ state: 'hidden' });
    expect(await panel.kept()).toMatchObject({ sections: { folded: ['positions'] } });
    const again = await openPanel('vscode-light', await panel.kept());
    for (const message of await messagesOf(text)) await again.send(message);
    await again.page.locator('.frame svg.played').waitFor();
    expect(await again.page.locator('.positions').isVisible()).toBe(false);
    await again.close();
    await page.getByText('Positions, all pots at rest').click();
    await page.locator('.positions').waitFor();
  });
});

test('names that look like markup stay names', async () => {
  const hostile = text
    .replace('"Alder Lane no. 21"', '"<img src=x onerror=alert(1)></title><script>alert(1)</script>"')
    .replaceAll('"neck"', '"<svg onload=alert(1)>"');
  for (const message of await messagesOf(hostile)) await panel.send(message);
  await panel.page.locator('.frame svg[aria-label*="<script>"]').waitFor();
  expect(await panel.page.locator('main img, main script, main svg svg, main style, main [onload], main [onerror]').count()).toBe(
    0,
  );
  expect(await panel.page.locator('.positions', { hasText: '<svg onload=alert(1)>' }).count()).toBe(1);
});

test('the policy lets no other script and no inline style in', async () => {
  await panel.page.evaluate(`{
    const script = document.createElement('script');
    script.textContent = 'window.ran = true';
    document.body.append(script);
    const style = document.createElement('style');
    style.textContent = 'main { display: none }';
    document.body.append(style);
  }`);
  expect(await panel.page.evaluate('window.ran === undefined && document.querySelector("main").offsetHeight > 0')).toBe(true);
  expect(panel.complaints.length).toBe(2);
  (panel.complaints as string[]).length = 0;
});

test('the row of a pull pot, a switch and a shaft of one name, is marked; a switch that became another kind stands at rest', async () => {
  const pull = readFileSync(join(root, 'examples/push-pull-coil-split.lug'), 'utf8');
  for (const message of await messagesOf(pull)) await panel.send(message);
  const row = panel.page.locator('.positions tr.chosen');
  await row.filter({ hasText: 'down' }).waitFor();
  expect(await panel.page.getByRole('radio', { name: 'neck' }).isChecked()).toBe(true);
  await panel.page.locator('.positions tbody tr', { hasText: 'up' }).first().click();
  await row.filter({ hasText: 'up' }).waitFor();
  expect(await row.count()).toBe(1);
});

async function middleOf(selector: string): Promise<{ readonly x: number; readonly y: number }> {
  const { x, y, width, height } = (await panel.page.locator(selector).boundingBox())!;
  return { x: x + width / 2, y: y + height / 2 };
}

/** A place of the screen on a wire, a little beyond its lug. */
async function endOf(id: string, lugName: string): Promise<{ readonly x: number; readonly y: number }> {
  const scene = (await messagesOf(text)).find((message) => message.kind === 'picture')!.scene;
  const wire = scene.wires.find((one) => one.id === id)!;
  const points = wire.from === `lug:${lugName}` ? wire.points : [...wire.points].reverse();
  const [first, second] = [points[0]!, points[1]!];
  const length = Math.hypot(second.x - first.x, second.y - first.y);
  const at = Math.min(20, length) / length;
  const place = { x: first.x + at * (second.x - first.x), y: first.y + at * (second.y - first.y) };
  return panel.page.evaluate(`(() => {
    const svg = document.querySelector('.frame svg');
    const { x, y } = new DOMPoint(${place.x}, ${place.y}).matrixTransform(svg.getScreenCTM());
    return { x, y };
  })()`);
}
