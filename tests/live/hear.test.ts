/** Hearing in a browser: silent until asked, quiet at first, stopped by key, and what is played is the computed response. */
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { read, root } from '../harness/checkout.js';
import { inProcess } from '../harness/in-process.js';
import { openPage, pageOf, type OpenedPage } from './harness.js';

const example = 'examples/three-single-coils-lever-5.lug';
let opened: OpenedPage;

/** Counts what is made for sound, and keeps what is turned up. */
const counting = `
  window.contexts = [];
  window.gains = [];
  const Own = AudioContext;
  window.AudioContext = class extends Own { constructor() { super(); contexts.push(this); } };
  const Gain = GainNode;
  window.GainNode = class extends Gain { constructor(...given) { super(...given); gains.push(this.gain); } };`;

beforeAll(async () => {
  opened = await openPage(await pageOf(read(example)), undefined, counting);
  await opened.page.locator('.frame svg.played').waitFor();
}, 120_000);
afterEach(() => expect(opened.complaints).toEqual([]));
afterAll(() => opened.close());

const count = (): Promise<number> => opened.page.evaluate('contexts.length');

test('nothing is opened for sound before it is asked for, whatever is operated', async () => {
  const { page } = opened;
  await page.locator('.controls label', { hasText: /^neck$/ }).click();
  await page.locator('.says', { hasText: 'sounds neck' }).waitFor();
  await page.getByText('Every setting equally loud').click();
  await page.getByRole('slider', { name: 'Loudness' }).press('ArrowLeft');
  await page.getByRole('slider', { name: 'Loudness' }).press('ArrowRight');
  expect(await count()).toBe(0);
  expect(await page.getByRole('region', { name: 'Hear it' }).textContent()).toContain('Computed, not a recording');
});

test('by keyboard alone it starts quietly, says so, follows a switch, and is stopped by Escape', async () => {
  const { page } = opened;
  const button = page.getByRole('button', { name: 'Play the strings' });
  await button.focus();
  await page.keyboard.press('Enter');
  await page.getByRole('status').filter({ hasText: 'Playing. Escape stops it.' }).waitFor();
  expect(await page.getByRole('button', { name: 'Stop' }).count()).toBe(1);
  expect(await count()).toBe(1);
  // The first gain is the loudness: the square of 3 of 10, −21 dB.
  expect(await page.evaluate<number>('gains[0].value')).toBeCloseTo(0.09, 6);
  const before = await page.evaluate<number>('gains.length');
  await page.locator('.controls').getByRole('radio', { name: 'bridge', exact: true }).focus();
  await page.keyboard.press('ArrowRight');
  await expect.poll(() => page.evaluate('gains.length')).toBeGreaterThan(before);
  await page.keyboard.press('Escape');
  await page.getByRole('status').filter({ hasText: 'Stopped.' }).waitFor();
  await expect.poll(() => page.evaluate('contexts[0].state')).toBe('closed');
  // What is operated afterwards starts nothing again.
  await page.keyboard.press('ArrowRight');
  await page.waitForTimeout(300);
  expect(await count()).toBe(1);
});

test('a browser without sound says why', async () => {
  const { page } = opened;
  await page.evaluate(
    `window.kept = AudioContext; window.AudioContext = class { constructor() { throw new Error('no device'); } }`,
  );
  await page.getByRole('button', { name: 'Play the strings' }).click();
  await page.getByRole('status').filter({ hasText: 'Nothing can be played here: no device' }).waitFor();
  await page.evaluate('window.AudioContext = kept');
});

test.each([44_100, 48_000])(
  'an impulse rendered at %i Hz has the command’s response within 0.1 dB up to 10 kHz',
  async (rate) => {
    const { page } = opened;
    const set = ['--set', 'selector "bridge and middle", volume 8', '--format', 'json'];
    const sweep = (points: number) =>
      (
        JSON.parse(inProcess(['response', example, ...set, '--points', String(points)]).out) as {
          points: { hz: number; db: number; deg: number }[];
        }
      ).points;
    const shown = sweep(240);
    const curve = Object.fromEntries((['hz', 'db', 'deg'] as const).map((key) => [key, shown.map((point) => point[key])]));
    const { outputFiles } = await build({
      stdin: {
        contents: `export { responseNode } from './extension/preview/webview/hear/sound.ts';`,
        resolveDir: root,
        loader: 'ts',
      },
      bundle: true,
      write: false,
      format: 'iife',
      globalName: 'sound',
      outfile: join(root, 'sound.js'),
    });
    await page.evaluate(outputFiles[0]!.text.replace('var sound', 'window.sound'));
    const samples = await page.evaluate<number[]>(`(async () => {
    const context = new OfflineAudioContext(1, ${rate / 2}, ${rate});
    const buffer = context.createBuffer(1, 8, ${rate});
    buffer.getChannelData(0)[0] = 1;
    const impulse = new AudioBufferSourceNode(context, { buffer });
    impulse.connect(sound.responseNode(context, ${JSON.stringify(curve)})).connect(context.destination);
    impulse.start();
    return [...(await context.startRendering()).getChannelData(0)];
  })()`);
    const deviations = sweep(97)
      .filter(({ hz }) => hz > 30 && hz <= 10_000)
      .map(({ hz, db }) => Math.abs(levelOf(samples, (2 * Math.PI * hz) / rate) - db));
    expect(deviations.length).toBeGreaterThan(50);
    expect(Math.max(...deviations)).toBeLessThan(0.1);
  },
);

/** Level of samples at an angular frequency, dB: the transform by its definition. */
function levelOf(samples: readonly number[], w: number): number {
  let [re, im] = [0, 0];
  for (const [n, value] of samples.entries()) {
    re += value * Math.cos(w * n);
    im -= value * Math.sin(w * n);
  }
  return 20 * Math.log10(Math.hypot(re, im));
}
