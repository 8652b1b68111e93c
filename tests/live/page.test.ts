/** The page that needs no editor, in a browser: it draws, solves as the command does, is reached by keyboard, fits a phone, asks for nothing, runs nothing of a text. */
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { read } from '../harness/checkout.js';
import { inProcess } from '../harness/in-process.js';
import { axeFindings, openPage, pageOf, type OpenedPage } from './harness.js';

const example = 'examples/three-single-coils-lever-5.lug';
let opened: OpenedPage;

beforeAll(async () => {
  opened = await openPage(await pageOf(read(example)));
  await opened.page.locator('.frame svg.played').waitFor();
}, 120_000);
afterEach(() => expect(opened.complaints).toEqual([]));
afterAll(() => opened.close());

/** What is lit of the pickups, in order. */
const lit = (): Promise<string[]> =>
  opened.page.evaluate(
    `[...document.querySelectorAll('.part.lit > .hit')].map((hit) => hit.getAttribute('aria-label').split(',')[0]).filter((name) => /^(neck|middle|bridge)$/.test(name)).sort()`,
  );
const current = (): Promise<string | null> => opened.page.locator('.positions [aria-current=true]').getAttribute('aria-label');
const summary = (): Promise<string | null> => opened.page.locator('.summary').textContent();
const position = (name: string) => opened.page.locator('.controls label').filter({ hasText: new RegExp(`^${name}$`) });

describe('the file', () => {
  test('asks for nothing but itself, whatever is done', async () => {
    await position('neck').click();
    await position('bridge').click();
    expect(opened.requests).toHaveLength(1);
    expect(opened.requests[0]).toMatch(/^file:.*page\.html$/);
  });

  test('lets its own script and style run by their hashes and nothing else', () => {
    const [, policy] = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(opened.html)!;
    expect(policy).toMatch(
      /^default-src 'none'; script-src 'sha256-[\w+/]{43}='; style-src 'sha256-[\w+/]{43}='; base-uri 'none'; form-action 'none'$/,
    );
  });

  test('is below 1 MB with the largest example', async () => {
    const large = await pageOf(read('examples/bass-two-circuits-four-cavities.lug'));
    expect(Buffer.byteLength(large)).toBeLessThan(1_000_000);
    expect(Buffer.byteLength(large)).toBeGreaterThan(Buffer.byteLength(opened.html));
  });

  test('says what each position gives and the cautions without its script', () => {
    const words = /<div class="words">[^]*?<script/.exec(opened.html)![0];
    for (const text of ['What each position gives', 'The middle pickup', 'loudness: silent at 0', 'licensed electrician'])
      expect(words).toContain(text);
  });
});

describe('operating', () => {
  test('a switch changes what is lit, the words, the current row and the curve', async () => {
    await position('bridge').click();
    await opened.page.locator('.says', { hasText: 'sounds bridge' }).waitFor();
    expect([await lit(), await current()]).toEqual([['bridge'], 'selector "bridge"']);
    const before = await summary();
    await position('middle and neck').click();
    await opened.page.locator('.says', { hasText: 'sounds parallel(middle, neck), hum cancelled' }).waitFor();
    expect([await lit(), await current()]).toEqual([['middle', 'neck'], 'selector "middle and neck"']);
    expect(await summary()).not.toBe(before);
  });

  test('a row of the table chooses its position', async () => {
    await opened.page.locator('.positions tbody tr').last().click();
    await opened.page.locator('.says', { hasText: 'sounds neck' }).waitFor();
    expect(await opened.page.getByRole('radio', { name: 'neck', exact: true }).isChecked()).toBe(true);
  });

  test('a tap on a part names it and gives its control, another beside it takes that away', async () => {
    const { page } = opened;
    await page.locator('[aria-label^="volume, pot"]').click({ position: { x: 6, y: 6 } });
    await page.locator('.details').getByRole('slider', { name: 'volume' }).fill('0');
    await page.locator('.says', { hasText: 'silent' }).waitFor();
    expect(await page.locator('.controls').getByRole('slider', { name: 'volume' }).inputValue()).toBe('0');
    await page.getByRole('heading', { level: 1 }).click();
    await page.locator('.details').waitFor({ state: 'hidden' });
    await page.getByRole('button', { name: 'Reset all' }).click();
    await page.locator('.says', { hasText: 'sounds bridge' }).waitFor();
  });
});

describe('the numbers are those of the command', () => {
  test('positions', async () => {
    interface Row {
      readonly label: string;
      readonly sounds: string;
      readonly hum: string;
      readonly reads: { readonly ohm: number };
      readonly peak: { readonly hz: number } | null;
    }
    const { positions } = JSON.parse(inProcess(['positions', '--format', 'json', example]).out) as { positions: Row[] };
    const shown = await opened.page.evaluate<string[][]>(
      `[...document.querySelectorAll('.positions tbody tr')].map((row) => [...row.cells].map((cell) => cell.textContent))`,
    );
    expect(shown.map(([name, sounds, hum]) => [`selector "${name!}"`, sounds, hum])).toEqual(
      positions.map(({ label, sounds, hum }) => [label, sounds, hum]),
    );
    // Three figures are shown.
    for (const [index, { reads, peak }] of positions.entries()) {
      expect(valueOf(shown[index]![3]!) / reads.ohm).toBeCloseTo(1, 2);
      expect(valueOf(shown[index]![4]!) / peak!.hz).toBeCloseTo(1, 2);
    }
  });

  test('the response of a position with a pot turned', async () => {
    const { page } = opened;
    await position('bridge').click();
    await page.locator('.controls').getByRole('slider', { name: 'volume' }).fill('9');
    await page.locator('.says', { hasText: 'sounds bridge' }).waitFor();
    const set = 'selector "bridge", volume 9';
    const words = ['response', example, '--set', set, '--points', '240', '--format', 'json'];
    const { points, peak } = JSON.parse(inProcess(words).out) as {
      points: { hz: number; db: number }[];
      peak: { hz: number; db: number };
    };
    const plot = page.getByRole('slider', { name: 'Read the response at a frequency' });
    await plot.focus();
    await plot.press('Home');
    for (let index = 0; index < 240; index += 12) {
      const text = (await plot.getAttribute('aria-valuetext'))!;
      const [, level] = /: (−?[\d.]+) dB/.exec(text)!;
      // Shown to a tenth.
      expect(Math.abs(Number(level!.replace('−', '-')) - points[index]!.db), text).toBeLessThan(0.0501);
      await plot.press('PageUp');
    }
    const [, kilohertz, rise] = /^Peak ([\d.]+) kHz, \+([\d.]+) dB/.exec((await summary())!)!;
    expect(Number(kilohertz) * 1000).toBeCloseTo(peak.hz, -1);
    expect(Number(rise)).toBeCloseTo(peak.db, 1);
    await page.getByRole('button', { name: 'Reset all' }).click();
  });
});

describe('keyboard alone', () => {
  test('moves a switch, turns a pot, opens an item of the drawing and leaves it', async () => {
    const { page } = opened;
    const focused = (): Promise<string> =>
      page.evaluate(
        `(() => { const { activeElement: one } = document; return one.getAttribute('aria-label') ?? one.labels?.[0]?.textContent ?? one.tagName; })()`,
      );
    const tabTo = async (name: RegExp): Promise<void> => {
      for (let count = 0; count < 30 && !name.test(await focused()); count++) await page.keyboard.press('Tab');
      expect(await focused()).toMatch(name);
    };
    await page.evaluate('document.activeElement.blur(), scrollTo(0, 0)');
    await tabTo(/^bridge$/);
    await page.keyboard.press('ArrowRight');
    await page.locator('.says', { hasText: 'sounds parallel(bridge, middle)' }).waitFor();
    await tabTo(/^volume/);
    await page.keyboard.press('Home');
    await page.locator('.says', { hasText: 'silent' }).waitFor();
    await page.keyboard.press('End');
    await page.locator('.frame [tabindex="0"]').focus();
    for (let count = 0; count < 40 && !/^volume, pot/.test(await focused()); count++) await page.keyboard.press('ArrowRight');
    expect(await focused()).toMatch(/^volume, pot/);
    await page.keyboard.press('PageDown');
    expect(await page.locator('.controls').getByRole('slider', { name: 'volume' }).inputValue()).toBe('9');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog', { name: 'volume, pot' }).waitFor();
    expect(await focused()).toBe('Close');
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    expect(await focused()).toMatch(/^volume, pot/);
  });

  test('a wire can be neither drawn nor moved', async () => {
    const { page } = opened;
    await page.locator('[aria-label^="lug volume.3"]').focus();
    await page.keyboard.press('w');
    expect(await page.locator('.drawn-wire, .drawing-wire, .stage > .hint').count()).toBe(0);
  });
});

test.each([
  ['light', 1200],
  ['dark', 1200],
  ['light', 360],
  ['dark', 360],
] as const)('axe finds nothing: %s, %i pixels wide', async (colorScheme, width) => {
  const { page } = opened;
  await page.emulateMedia({ colorScheme });
  await page.setViewportSize({ width, height: 800 });
  expect(await axeFindings(page)).toEqual([]);
});

const touchAction = (): Promise<string> => opened.page.evaluate(`getComputedStyle(document.querySelector('.frame')).touchAction`);

test('a phone does not scroll sideways, sees the whole drawing first, and scrolls past it with a wheel or a finger', async () => {
  const { page } = opened;
  await page.setViewportSize({ width: 360, height: 740 });
  expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(360);
  expect(await page.locator('.overview').isVisible()).toBe(false);
  expect(await touchAction()).toBe('pan-y pinch-zoom');
  await page.evaluate('scrollTo(0, 0)');
  await page.locator('.frame').hover();
  await page.mouse.wheel(0, 200);
  await expect.poll(() => page.evaluate('scrollY')).toBeGreaterThan(100);
  await page.getByRole('button', { name: 'Zoom in' }).click();
  await page.locator('.overview').waitFor();
  // What is nearer than the frame is moved in all directions.
  expect(await touchAction()).toBe('none');
  await page.getByRole('button', { name: 'Fit the whole drawing' }).click();
  await page.setViewportSize({ width: 1200, height: 900 });
});

/** `3.21 kΩ` and `4.79 kHz` as ohms and hertz. */
function valueOf(text: string): number {
  const [, figure, prefix] = /^([\d.]+)\s?(k?)(?:Ω|Hz)$/.exec(text)!;
  return Number(figure) * (prefix === 'k' ? 1000 : 1);
}

describe('as a string sounds', () => {
  test('the curve is that of the chosen string, the sound that of the circuit, and without a tuning nothing is offered', async () => {
    expect(await opened.page.getByRole('group', { name: 'As this string' }).count()).toBe(0);
    const strung = await openPage(await pageOf(read('examples/pickup-places-on-the-string.lug')));
    try {
      const { page } = strung;
      await page.locator('.frame svg.played').waitFor();
      const says = page.locator('.summary');
      await page.getByRole('radio', { name: '6 E2', exact: true }).check({ force: true });
      await says.filter({ hasText: 'As E2 sounds, 82.4 Hz' }).waitFor();
      // From end to end of the plot by its keys: what is read off is what the command says.
      await page.locator('.plot').focus();
      await page.keyboard.press('End');
      const { out } = inProcess([
        'response',
        'examples/pickup-places-on-the-string.lug',
        '--string',
        '6',
        '--points',
        '2',
        '--format',
        'json',
      ]);
      const { points } = JSON.parse(out) as { points: { db: number }[] };
      const shown = (await page.locator('.readout').textContent())!;
      expect(Number(/: ([−\d.]+) dB/.exec(shown)![1]!.replace('−', '-'))).toBeCloseTo(points[1]!.db, 1);
      await page.getByRole('radio', { name: 'None', exact: true }).check({ force: true });
      await says.filter({ hasText: 'Peak' }).waitFor();
      expect(await axeFindings(page)).toEqual([]);
      expect(strung.complaints).toEqual([]);
    } finally {
      await strung.close();
    }
  });

  test('a pickup whose place is not stated is named', async () => {
    const text = read('examples/pickup-places-on-the-string.lug').replace('from-bridge 42mm, ', '');
    const strung = await openPage(await pageOf(text));
    try {
      await strung.page.locator('.frame svg.played').waitFor();
      await strung.page.getByRole('radio', { name: '1 E4', exact: true }).check({ force: true });
      await strung.page.locator('.summary').filter({ hasText: 'It isn’t known where bridge senses the string' }).waitFor();
      expect(strung.complaints).toEqual([]);
    } finally {
      await strung.close();
    }
  });
});
