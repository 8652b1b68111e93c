/** The record of one instrument on its sheet, the page for the player, the order list, and names that mean harm in each. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { buildOf, benchSheet, buyList, meterSheet, playerPage, sheetHtml, sheetMarkdown } from '../../language/workshop/index.js';
import { soundCircuit } from '../circuit/harness.js';
import { inProcess, inProcessAsync } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

const shared = `instrument "Alder Lane no. 68" { batch 3 }
cavity control depth 38mm
plate main in control { volume at 20 30, output at 100 30 }
part bridge : single-coil 7k 3H 100pF { lead hot white 260mm, lead ground black 260mm, tolerance 5% }
part volume : pot 250k audio
part output : jack
wire bridge.hot to volume.3
wire bridge.ground to volume.case
solder volume.1 to volume.case
wire volume.2 to output.tip white 24awg
wire volume.case to output.sleeve black 24awg
`;
const first = soundCircuit(shared);
const files = { 'no-68.lug': shared };
const [rows] = benchSheet(buildOf(first)).sections.flatMap(({ blocks }) =>
  blocks.flatMap((block) => (block.kind === 'ticks' ? [block.rows] : [])),
);
const { key } = rows![1]!;
const recordText = `use "no-68.lug"
record 2 {
  by "Alder Lane", date "2026-11-25"
  changed "Fresh wire to the jack"
  before "open with the plug moved"
  done ${JSON.stringify(key)}
}
actual bridge 6.8k { lead hot red }
actual volume 240k
measured : reads 6.6k
`;
const record = soundCircuit(recordText, files);

describe('a record', () => {
  test('is of its number, ticked as it says', () => {
    const sheet = benchSheet(buildOf(record));
    expect(sheet.title).toBe('Alder Lane no. 68, 2 of 3');
    expect(sheet.fields).toEqual(['Date: 2026-11-25', 'By: Alder Lane']);
    const text = sheetMarkdown(sheet);
    expect(text.match(/- \[x\]/g)).toHaveLength(1);
    expect(sheetHtml(sheet).match(/<b>✓<\/b>/g)).toHaveLength(1);
  });

  // The limits: ±1.965 % of copper (5 K), the meter's 1 % and one in the third digit, rounded outwards.
  test('reads what its own parts give, which have no tolerance: 6.8k∥240k = 6612.7 Ω', () => {
    expect(meterSheet(buildOf(record)).rows).toEqual([
      {
        setting: 'in every setting',
        low: '6.41k',
        high: '6.82k',
        note: '',
        place: { at: '', setting: '' },
        taken: { text: '6.6k', fits: true },
      },
    ]);
    // By hand: 6.65k − 1.965 % ∥ 200k and 7.35k + 1.965 % ∥ 300k, the meter as above.
    expect(meterSheet(buildOf(first)).rows[0]).toMatchObject({ low: '6.24k', high: '7.40k' });
    expect(meterSheet(buildOf(first)).rows[0]!.taken).toBeUndefined();
  });

  test('a reading that is off is told to be off', () => {
    const off = soundCircuit(recordText.replace('reads 6.6k', 'reads 5k'), files);
    expect(sheetMarkdown(benchSheet(buildOf(off)))).toContain('5k: off');
    const short = soundCircuit(recordText.replace('reads 6.6k', 'reads short'), files);
    expect(meterSheet(buildOf(short)).rows[0]!.taken).toEqual({ text: 'short', fits: false });
  });

  test('the lead has the colour of the pickup in hand, and lists are for one instrument', () => {
    expect(sheetMarkdown(benchSheet(buildOf(record)))).toContain('red lead of bridge.hot');
    expect(buyList(buildOf(record)).find(({ item }) => item === 'pot')!.quantity).toBe(1);
    expect(buyList(buildOf(first)).find(({ item }) => item === 'pot')!.quantity).toBe(3);
  });
});

describe('the order list', () => {
  test('parts with spares, wire by the metre, heat-shrink by its size, for the batch', () => {
    const list = buyList(buildOf(soundCircuit(`${shared}build { spares 1 }\n`))).map(({ quantity, unit, item, values }) => [
      quantity,
      unit,
      item,
      values,
    ]);
    // Three instruments and one spare.
    expect(list).toContainEqual([4, 'piece', 'pot', '250 kΩ, audio']);
    // From (20, 30) to (100, 30) 80, slack 20, strips 12: 112, cut 115, three times 345 mm.
    expect(list).toContainEqual([0.4, 'metre', 'wire', 'white 24 AWG']);
  });
});

test('the order list has no figure for wire of which no piece has a length, on paper and as CSV', async () => {
  const unmeasured = `part p : single-coil { lead hot white 100mm }
part o : jack
wire p.ground to o.sleeve black
part v : pot 250k
wire v.2 to o.tip yellow
wire v.1 to o.sleeve yellow
`;
  const list = buyList(buildOf(soundCircuit(`instrument "Alder Lane no. 232" { batch 2 }\n${unmeasured}`)));
  const [row] = list.filter(({ item, values }) => item === 'wire' && values === 'yellow 22 AWG');
  expect(row).toMatchObject({ unit: 'metre', note: '4 pieces to measure in place' });
  expect(row).not.toHaveProperty('quantity');
  const { out } = await inProcessAsync(
    ['sheet', 'a.lug', '--format', 'csv', '--list', 'buy'],
    folderWith({ 'a.lug': unmeasured }),
  );
  expect(out).toContain('\n,metre,wire,yellow 22 AWG,');
  expect(out).not.toMatch(/^0,/m);
  expect(sheetMarkdown(benchSheet(buildOf(soundCircuit(unmeasured))))).toMatch(
    /^\| {2}\| wire \| yellow 22 AWG; 2 pieces to measure in place/m,
  );
});

describe('the page for the player', () => {
  const page = sheetMarkdown(playerPage(buildOf(record)));

  test('says what was changed, what sounds and whether it hums, cautions first', () => {
    expect(page).toContain('Fresh wire to the jack');
    expect(page).toContain(
      '| in every setting | The bridge pickup | hums near lamps and transformers, as pickups of this kind do |',
    );
    expect(page).toContain('loudness: silent at 0, full at 10');
    expect(page.indexOf('licensed electrician')).toBeLessThan(page.indexOf('What was changed'));
  });

  test('holds no word of circuits', () => {
    expect(page).not.toMatch(/\b(ohm|Ω|parallel|series|pot|lug|capacitor|case|coil|sleeve|tip|resist\w*|solder|net)\b/i);
  });

  test('a split pickup, two added, two against each other', () => {
    const heard = (text: string): string => sheetMarkdown(playerPage(buildOf(soundCircuit(text))));
    const two = `part a, b : single-coil
part o : jack
`;
    expect(heard(`${two}wire a.hot to o.tip\nwire a.ground to b.hot\nwire b.ground to o.sleeve\n`)).toContain(
      'The a pickup and the b pickup, one added to the other: louder and fuller',
    );
    expect(heard(`${two}wire a.hot to o.tip\nwire b.ground to o.tip\nwire a.ground to b.hot to o.sleeve\n`)).toContain(
      'The a pickup and the b pickup together, working against each other: thin and hollow',
    );
    expect(
      heard(`part h : humbucker-4
part o : jack
wire h.north-start to h.south-finish to o.tip
wire h.north-finish to h.south-start to o.sleeve
`),
    ).toMatch(/oth halves of the h pickup side by side/);
  });
});

describe('names that mean harm', () => {
  const evil = '<img src=x onerror=alert(1)> =1+1 | `x` [a](b) "';
  const hostile = soundCircuit(
    `use "no-68.lug"
record 2 {
  by ${JSON.stringify(evil)}, date "=cmd"
  changed ${JSON.stringify(evil)}
  before ${JSON.stringify(evil)}
  done "<b>"
}
`,
    { 'no-68.lug': shared.replace('"Alder Lane no. 68"', '"</title><script>x</script>"') },
  );

  test('stay text on sheet and page', () => {
    for (const made of [benchSheet(buildOf(hostile)), playerPage(buildOf(hostile))]) {
      expect(sheetHtml(made)).not.toMatch(/<img|<script/);
      expect(sheetMarkdown(made)).not.toMatch(/<img|<script|[^\\]`x|[^\\]\[a\]\(b/);
    }
  });

  test('run in no spreadsheet', async () => {
    const cwd = folderWith({
      'a.lug': shared
        .replaceAll('volume', 'vol')
        .replace('"Alder Lane no. 68"', '"=1+1"')
        .replace('pot 250k audio', 'pot 250k audio { positions "x" }'),
    });
    for (const list of ['buy', 'parts', 'cut', 'sleeves', 'order', 'meter', 'tap']) {
      const { out } = await inProcessAsync(['sheet', 'a.lug', '--format', 'csv', '--list', list], cwd);
      for (const line of out.split('\n')) expect(line).not.toMatch(/(^|,)"?[=+@]/);
    }
  });
});

describe('the command', () => {
  const cwd = folderWith({ 'no-68.lug': shared, 'no-68.no-2.lug': recordText });

  test('reads a record as a circuit: sheet, positions, fault finding', async () => {
    expect((await inProcessAsync(['sheet', 'no-68.no-2.lug', '-o', 'two.html'], cwd)).code).toBe(0);
    expect(readFileSync(join(cwd, 'two.html'), 'utf8')).toContain('Alder Lane no. 68, 2 of 3');
    expect(inProcess(['positions', 'no-68.no-2.lug'], cwd).out).toContain('6.61 kΩ');
    expect(inProcess(['locate', 'no-68.no-2.lug'], cwd).out).toContain('without a fault');
  });

  test('writes the page for the player as HTML', async () => {
    expect((await inProcessAsync(['sheet', 'no-68.no-2.lug', '--for', 'player', '-o', 'page.html'], cwd)).code).toBe(0);
    expect(readFileSync(join(cwd, 'page.html'), 'utf8')).toContain('What each position gives');
  });

  test('the solder order as values begins with the cautions', async () => {
    const { out } = await inProcessAsync(['sheet', 'no-68.lug', '--format', 'csv', '--list', 'order'], cwd);
    expect(out.split('\n')[1]).toMatch(/^Cautions,,caution,"Unplug from the amplifier/);
  });
});
