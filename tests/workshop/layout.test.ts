/** How the sheet lies on paper: how many pages it takes, a batch's boxes, readings with one band. */
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { benchSheet, buildOf, sheetHtml, sheetMarkdown, type Block, type Build } from '../../language/workshop/index.js';
import { soundCircuit } from '../circuit/harness.js';
import { openBrowser, type OpenBrowser } from '../editor/hosts/browser.js';
import { pagesOfPdf } from '../harness/pdf.js';
import { inProcessAsync } from '../harness/in-process.js';

const example = readFileSync(new URL('../../examples/one-pickup-volume-tone.lug', import.meta.url), 'utf8');
const plain = (batch: string): string => example.replace('"Alder Lane no. 1"', `$& ${batch}`);
const build = (batch = ''): Build => buildOf(soundCircuit(plain(batch)));

function tables(one: Build, number?: number): readonly (Block & { readonly kind: 'table' })[] {
  const { sections } = benchSheet(one, number === undefined ? {} : { number });
  return sections.flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === 'table' ? [block] : [])));
}

describe('a batch', () => {
  test('has a box and room for a reading for each instrument, and pieces to cut', () => {
    const html = sheetHtml(benchSheet(build('{ batch 3 }')));
    const rows = [...html.matchAll(/<tr[^>]* data-key="[^]*?<\/tr>/g)]
      .map(([row]) => row)
      .filter((row) => !row.includes('test head'));
    expect(rows.length).toBeGreaterThan(10);
    for (const row of rows) expect(row).toContain('<td class="box"><b>1</b><b>2</b><b>3</b></td>');
    const read = rows.filter((row) => row.includes('class="reads"'));
    expect(read.length).toBeGreaterThan(3);
    for (const row of read) expect(row).toContain('<td class="reads"><i>1</i><i>2</i><i>3</i></td>');
    const [cut] = tables(build('{ batch 3 }')).filter(({ blanks }) => blanks?.includes('cut'));
    expect(cut?.heads).toContain('pieces');
    expect(cut?.rows.map((row) => row[cut.heads.indexOf('pieces')])).toEqual(Array(5).fill('3'));
    expect(tables(build('{ batch 3 }')).flatMap(({ blanks = [] }) => blanks)).toContain('reads 3');
    expect(sheetMarkdown(benchSheet(build('{ batch 3 }')))).toMatch(/less than 2 Ω.* 1 ☐ ____ 2 ☐ ____ 3 ☐ ____\n/);
  });

  test('of more than six has six to a sheet, by letters', () => {
    const html = sheetHtml(benchSheet(build('{ batch 12 }')));
    expect(html).toContain('<b>a</b><b>b</b><b>c</b><b>d</b><b>e</b><b>f</b>');
    expect(html).not.toContain('<b>g</b>');
    expect(html).toContain('Instruments a to f of 12 are numbers');
  });

  test('one instrument of it, and a single one, have one box and one blank', () => {
    for (const [one, number] of [
      [build('{ batch 3 }'), 2],
      [build(), undefined],
    ] as const) {
      const html = sheetHtml(benchSheet(one, number === undefined ? {} : { number }));
      expect(html).toContain('<td class="box"><b></b></td>');
      expect(html).not.toContain('<b></b><b>');
      expect(tables(one, number).flatMap(({ blanks = [] }) => blanks)).toContain('reads');
      const [cut] = tables(one, number).filter(({ blanks }) => blanks?.includes('cut'));
      expect(cut?.heads).not.toContain('pieces');
    }
  });
});

describe('readings', () => {
  const meterOf = (text: string) =>
    tables(buildOf(soundCircuit(text))).find(({ heads }) => heads.includes('setting') && heads.includes('must read'));

  test('are one band', () => {
    // By hand: the winding 5 % and 1.965 % (5 K of copper) lower and higher, 6.333 to 7.280 k; beside 200 k and 300 k of track, R·Rp/(R + Rp), 6.139 to
    // 7.108 k; the meter's 1 % and one in the third digit, rounded outwards.
    expect(meterOf(plain(''))?.rows.map((row) => row[1])).toEqual(['6.06k to 7.19k']);
  });

  test('are blank where the text does not say enough', () => {
    const unknown = plain('').replace('single-coil 6.8k 2.8H 115pF', 'single-coil ? 2.8H 115pF');
    expect(meterOf(unknown)?.rows.map((row) => row[1])).toEqual(['']);
  });
});

test('a length that is not known is a blank, and the sheet says how to measure it', () => {
  const sheet = benchSheet(build());
  const [cut] = tables(build()).filter(({ blanks }) => blanks?.includes('cut'));
  expect(cut?.rows.map((row) => row[cut.heads.indexOf('cut to')])).toEqual(Array(5).fill(''));
  expect(sheetMarkdown(sheet)).toContain(
    'No length: lay a piece of string from lug to lug where the wire will lie, add 20 mm of slack',
  );
});

describe('sections', () => {
  const sheetOf = (name: string) =>
    benchSheet(buildOf(soundCircuit(readFileSync(new URL(`../../examples/${name}.lug`, import.meta.url), 'utf8'))));

  test('the reasons are last, or behind lists that run on to a second page', () => {
    const reasons = 'Why the steps are in their order';
    const titles = (name: string): readonly string[] => sheetOf(name).sections.map(({ title }) => title);
    expect(titles('two-humbuckers-toggle-3').at(-1)).toBe(reasons);
    const bass = titles('bass-two-circuits-four-cavities');
    expect(bass.slice(bass.indexOf(reasons), bass.indexOf(reasons) + 2)).toEqual([reasons, 'Solder order']);
  });

  test('the only test of a stage has the key that it has among others, so that its tick stays', () => {
    const body = sheetOf('rotary-tone-capacitors').sections.find(({ title }) => title === 'In the body');
    const rows = body?.blocks.flatMap((block) => (block.kind === 'ticks' ? block.rows.filter(({ isTest }) => isTest) : []));
    expect(rows?.map(({ key }) => key)).toEqual(['test In the body volume.3 to volume.case: 7.23k to 8.54k, never a short.']);
    expect(rows?.map(({ text }) => text)).toEqual([
      'Test with colour open and pots at 10. volume.3 to volume.case: 7.23k to 8.54k, never a short.',
    ]);
  });
});

describe('on paper', () => {
  let browser: OpenBrowser;
  beforeAll(async () => {
    browser = await openBrowser(mkdtempSync(join(tmpdir(), 'lugwork-layout-')));
  });
  afterAll(() => browser.close());

  // The aim: at most six for one plate, nine for four cavities.
  test.each([
    ['one-pickup-volume-tone', 6],
    ['three-single-coils-lever-5', 6],
    ['two-humbuckers-toggle-3', 6],
    ['push-pull-coil-split', 6],
    ['rotary-tone-capacitors', 6],
    ['bass-two-circuits-four-cavities', 9],
  ])('%s takes at most %d pages of A4, and of Letter', async (name, most) => {
    const { out, code } = await inProcessAsync(['sheet', `examples/${name}.lug`, '--format', 'html']);
    expect(code).toBe(0);
    await browser.page.setContent(out);
    for (const format of ['A4', 'Letter'])
      expect(pagesOfPdf(await browser.page.pdf({ format })).length, format).toBeLessThanOrEqual(most);
  });
});
