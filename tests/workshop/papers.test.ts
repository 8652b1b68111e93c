/** The workshop's papers: flags, template, form, and the template's true size on printed paper. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { benchSheet, buildOf, cutList, paperPages, sheetHtml, templates, wireFlags } from '../../language/workshop/index.js';
import { soundCircuit } from '../circuit/harness.js';
import { openBrowser, type OpenBrowser } from '../editor/hosts/browser.js';
import { inProcessAsync } from '../harness/in-process.js';
import { pagesOfPdf, type Shape } from '../harness/pdf.js';
import { folderWith } from '../harness/process.js';

const PLATE = `instrument "Alder Lane no. 232" { batch 2 }

cavity control shield depth 38mm
plate main in control metal size 120 60 { volume at 20 30, tone at 60 30, output at 100 30 }

part bridge : single-coil 6.8k 2.8H 115pF { lead hot white 260mm, lead ground black 260mm }
part volume : pot 250k audio { hole 9.5mm }
part tone   : pot 250k audio { hole 8mm }
part cap    : capacitor 22nF film from tone.1 to output.sleeve
part saddle : bridge-ground
part output : jack

wire bridge.hot    to volume.3
wire bridge.ground to volume.case
wire volume.2      to output.tip white 24awg
solder volume.1    to volume.case
wire saddle        to volume.case black
wire volume.case   to output.sleeve black 24awg
wire volume.3      to tone.2
wire volume.case   to tone.case
`;
const build = (text = PLATE) => buildOf(soundCircuit(text));

describe('flags', () => {
  test('each wire of the cut list has two, one for each end, with the lug that the end goes to', () => {
    const flags = wireFlags(build()).map(({ mark, to }) => `${mark} ${to}`);
    expect(flags.slice(0, 4)).toEqual(['W1 volume.2', 'W1 output.tip', 'W2 saddle', 'W2 volume.case']);
    expect(flags.length).toBe(2 * cutList(build()).flatMap(({ cuts }) => cuts).length);
  });

  test('each flag says the same on both halves; a batch takes a set for each', () => {
    const [page = ''] = paperPages(build(), ['flags']);
    expect(page.match(/>W1 →</g)?.length).toBe(4);
    expect(page.match(/>output\.tip</g)?.length).toBe(2);
    expect(page).toContain('Print one set for each of the 2 instruments.');
  });

  test('a long name breaks, and no letter is smaller than 6 pt', () => {
    const long = PLATE.replaceAll('volume', `volume-${'of-the-rear-plate-'.repeat(3)}x`);
    const pages = paperPages(build(long), ['flags', 'template']);
    const sizes = pages.flatMap((page) => [...page.matchAll(/font-size="([\d.]+)"/g)].map(([, size]) => Number(size)));
    // 6 pt = 6 × 25.4 / 72 mm.
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual((6 * 25.4) / 72);
  });
});

describe('template', () => {
  test('seen from the player’s side X counts from the right', () => {
    expect(templates(build())).toMatchObject([
      {
        plate: 'main',
        width: 120,
        height: 60,
        corner: { x: 120, y: 0 },
        marks: [
          { name: 'volume', x: 100, y: 30, hole: 9.5 },
          { name: 'tone', x: 60, y: 30, hole: 8 },
          { name: 'output', x: 20, y: 30 },
        ],
      },
    ]);
    const [page = ''] = paperPages(build(), ['template']);
    for (const words of [
      'Mirrored, to lie on the face',
      'upper left corner as the solder side and the drawing show it: here at the upper right',
      'measure the part',
      '⌀ ____ mm',
    ])
      expect(page).toContain(words);
  });

  test('words of holes that are close together are not written over each other', () => {
    const close = PLATE.replace('tone at 60 30', 'tone at 28 30').replace('output at 100 30', 'output at 36 30');
    const [page = ''] = paperPages(build(close), ['template']);
    const heights = ['volume', 'tone', 'output'].map((name) => new RegExp(`y="([\\d.]+)"[^>]*>${name}<`).exec(page)?.[1]);
    expect(new Set(heights).size).toBe(3);
  });

  test('a plate too wide for the paper but not too high for its length lies on its side, turned and not mirrored', () => {
    const [template] = templates(build(PLATE.replace('size 120 60', 'size 182 90')));
    expect(template).toMatchObject({ isTurned: true, width: 90, height: 182 });
    // From above 162 from the left and 30 down; a quarter turn to the right puts it 90 − 30 from the left and 162 down.
    expect(template!.marks[0]).toMatchObject({ x: 60, y: 162 });
    expect(template!.corner).toEqual({ x: 90, y: 182 });
    expect(paperPages(build(PLATE.replace('size 120 60', 'size 182 90')), ['template'])).toHaveLength(1);
  });

  test('a larger plate is split, and says so', () => {
    const pages = paperPages(build(PLATE.replace('size 120 60', 'size 310 90')), ['template']);
    expect(pages).toHaveLength(2);
    expect(pages[0]).toContain('Page 1 of 2');
  });

  test('without a size there is no outline; without places there is nothing to drill by, and it says so', () => {
    expect(paperPages(build(PLATE.replace(' size 120 60', '')), ['template']).join()).toContain('The text gives no size');
    expect(paperPages(build(PLATE.replace(/ at \d+ \d+/g, '')), ['template']).join()).toContain('nothing to drill by');
  });
});

test('a form for each instrument of the batch', () => {
  const pages = paperPages(build(), ['form']);
  expect(pages).toHaveLength(2);
  for (const words of [
    '1 of 2',
    'Customer',
    'Serial number',
    'Found before',
    'Done',
    'Photographs',
    'Time and price',
    'signature',
  ])
    expect(pages[0]).toContain(words);
});

describe('the command', () => {
  const folder = folderWith({ 'a.lug': PLATE });
  const call = (...words: string[]) => inProcessAsync(['sheet', 'a.lug', ...words], folder);

  test('prints the papers behind the sheet, and only when asked', async () => {
    const count = (html: string): number => html.match(/class="paper-page"/g)?.length ?? 0;
    expect(count((await call('--no-drawing', '--with', 'flags, template,form')).out)).toBe(4);
    expect(count((await call('--no-drawing', '--format', 'html')).out)).toBe(0);
  });

  test('an unknown word is refused with those that are known; so are Markdown and the player’s page', async () => {
    const unknown = await call('--with', 'flags,templat');
    expect(unknown.code).toBe(2);
    expect(unknown.err).toContain('--with templat is not known; did you mean template? (flags, template, form)');
    expect((await call('--with', 'form', '--format', 'markdown')).err).toContain('in HTML');
    expect((await call('--with', 'form', '--for', 'player')).err).toContain('behind the bench sheet');
  });
});

describe('printed by a browser, measured in the PDF', () => {
  let browser: OpenBrowser;
  beforeAll(async () => {
    browser = await openBrowser(mkdtempSync(join(tmpdir(), 'lugwork-papers-')));
  });
  afterAll(() => browser.close());

  const near = (a: number, b: number): boolean => Math.abs(a - b) <= 0.1;
  async function printed(text: string, format: string) {
    const made = build(text);
    await browser.page.setContent(sheetHtml(benchSheet(made), paperPages(made, ['template', 'form'])));
    return pagesOfPdf(await browser.page.pdf({ format }));
  }

  test.each([
    ['A4', 210, 297],
    ['Letter', 215.9, 279.4],
  ])('on %s the bars are 50 mm and 2 in, holes as wide and as far apart as the text says', async (format, width, height) => {
    const pages = await printed(PLATE, format);
    const bar = (shapes: readonly Shape[], length: number) =>
      shapes.filter((shape) => shape.kind === 'rectangle' && near(shape.width, length) && near(shape.height, 1.5));
    const [page, ...more] = pages.filter(({ shapes }) => bar(shapes, 50).length > 0);
    expect(more).toEqual([]);
    expect(page!.width).toBeCloseTo(width, 0);
    expect(page!.height).toBeCloseTo(height, 0);
    expect(bar(page!.shapes, 50)).toHaveLength(1);
    expect(bar(page!.shapes, 50.8)).toHaveLength(1);
    const hole = (diameter: number): readonly [number, number] => {
      const found = page!.shapes.filter(
        (shape) => shape.kind === 'curve' && near(shape.width, diameter) && near(shape.height, diameter),
      );
      expect(found).toHaveLength(1);
      return [found[0]!.x + found[0]!.width / 2, found[0]!.y + found[0]!.height / 2];
    };
    const [volume, tone] = [hole(9.5), hole(8)];
    // 60 − 20 = 40 mm, and from the player's side the one with the smaller X is on the right.
    expect(Math.abs(volume[0] - tone[0] - 40)).toBeLessThan(0.1);
    expect(Math.abs(volume[1] - tone[1])).toBeLessThan(0.1);
    // Sheet, one template and two forms: nothing runs over onto another page.
    const at = pages.indexOf(page!);
    expect(pages.length - at).toBe(3);
  });
});
