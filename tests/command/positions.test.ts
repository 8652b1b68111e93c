/** `lugwork positions` as a process: the table in its forms, against figures worked by hand. */
import { describe, expect, test } from 'vitest';
import { inProcess } from '../harness/in-process.js';
import { meterLimits, warmth } from '../harness/meter-limits.js';
import { folderWith } from '../harness/process.js';
import { broken, clean, library } from './circuits.js';

/** Resistances side by side: ab / (a + b). */
const beside = (a: number, b: number) => (a * b) / (a + b);
const pickups = [6900, beside(6900, 6200), 6200];

interface Row {
  set: Record<string, string>;
  label: string;
  sounds: string;
  hum: string;
  reads: { ohm: number; low: number; high: number };
  peak: { hz: number; db: number } | null;
  cutoff_hz: number;
  level_db: number;
}

function table(text: string, format: string): string {
  return inProcess(['positions', 'a.lug', '--format', format], folderWith({ 'a.lug': text })).out;
}

describe('json', () => {
  const { positions } = JSON.parse(table(clean, 'json')) as { positions: Row[] };

  test('a row a setting, with exactly the fixed names', () => {
    expect(positions).toHaveLength(3);
    for (const row of positions) {
      expect(Object.keys(row)).toEqual([
        'output',
        'set',
        'label',
        'sounds',
        'hum',
        'hum_db',
        'reads',
        'peak',
        'cutoff_hz',
        'level_db',
      ]);
      expect(Object.keys(row.reads)).toEqual(['ohm', 'low', 'high', 'assumed']);
    }
    expect(positions.map(({ set }) => set)).toEqual([{ selector: '1' }, { selector: '2' }, { selector: '3' }]);
  });

  test('sounds and hum by the rule of winding and magnet', () => {
    expect(positions.map(({ sounds, hum }) => `${sounds}: ${hum}`)).toEqual([
      'bridge: present',
      'parallel(bridge, neck): cancelled',
      'neck: present',
    ]);
  });

  test('readings: the pickups, 5 % and 5 K off, beside the volume track of 250 k, 20 % off', () => {
    for (const [index, pickup] of pickups.entries()) {
      expect(positions[index]!.reads.ohm / beside(pickup, 250e3)).toBeCloseTo(1, 4);
      const { low, high } = positions[index]!.reads;
      const ends = [beside(pickup * 0.95 * (1 - warmth), 200e3), beside(pickup * 1.05 * (1 + warmth), 300e3)] as const;
      expect([low, high]).toEqual(meterLimits(...ends));
    }
  });

  test('a type’s bare names stand in the set', () => {
    const text = clean
      .replace('lever-3 { positions "bridge" "both" "neck" }', 'toggle-3')
      .replace(/selector\.(A1|A2)/g, 'selector.A');
    const toggled = text
      .replace(/selector\.(B3|B2)/g, 'selector.B')
      .replace('selector.A0 to selector.B0', 'selector.out')
      .replace(/^expect.*\n/m, '');
    const rows = (JSON.parse(table(toggled.replace(/^wire (\S+) to \1\n/gm, ''), 'json')) as { positions: Row[] }).positions;
    expect(rows.map(({ set }) => set['selector'])).toEqual(['up', 'middle', 'down']);
  });
});

describe('for people', () => {
  test('text: title, heads, aligned columns', () => {
    const [title, , heads, ...lines] = table(clean, 'text').trimEnd().split('\n');
    const rows = lines.slice(0, 3);
    expect(title).toBe('Alder Lane no. 3');
    const at = heads!.indexOf('sounds');
    expect(rows.map((row) => row.slice(at).split(/ {2,}/)[0])).toEqual(['bridge', 'parallel(bridge, neck)', 'neck']);
    // 6.9 k beside 250 k is 6714.7 ohm; the limits as in the data.
    expect(rows[0]).toContain('6.71 kΩ');
    expect(rows[0]).toContain('6.15 kΩ … 7.30 kΩ');
  });

  test('markdown: a table', () => {
    const [block = '', note] = table(clean, 'markdown').trimEnd().split('\n\n');
    const lines = block.split('\n');
    expect(note).toBe('the limits rest on usual tolerances, since the text leaves some out');
    expect(lines[1]).toMatch(/^\|( --- \|)+$/);
    expect(lines).toHaveLength(5);
    for (const line of lines) expect(line.match(/(?<!\\)\|/g)).toHaveLength(lines[1]!.match(/\|/g)!.length);
  });
});

describe('csv', () => {
  const cellsOf = (text: string) =>
    table(text, 'csv')
      .trimEnd()
      .split('\n')
      .slice(1)
      .map((row) => row.split(','));

  test('a head, a row a setting, as many cells in each', () => {
    const [head, ...rows] = table(clean, 'csv').trimEnd().split('\n');
    expect(head).toBe(
      'output,selector,setting,sounds,hum,hum_db,ohm,low,high,peak_hz,peak_db,cutoff_hz,level_db,cancels,approximate',
    );
    expect(rows).toHaveLength(3);
    expect(rows[1]).toContain('"parallel(bridge, neck)"');
  });

  test('each output has its rows, with how much hum is left', () => {
    const jacks = `part p : single-coil 6k 2H
part q : single-coil 7k 2H
part one, two : jack
wire p.hot to one.tip
wire q.hot to two.tip
wire p.ground to q.ground to one.sleeve to two.sleeve
`;
    // All of a single coil's hum is left: 0 dB.
    expect(cellsOf(jacks).map((row) => row.slice(0, 6))).toEqual([
      ['one.tip', '', 'p', 'present', '0', '6000'],
      ['two.tip', '', 'q', 'present', '0', '7000'],
    ]);
  });

  test('two like coils against each other cancel, and have no level', () => {
    const against = `part p, q : single-coil 6k 2H 100pF
part output : jack
wire p.hot to q.ground to output.tip
wire p.ground to q.hot to output.sleeve
`;
    const [row] = cellsOf(against);
    // level_db, cancels, approximate
    expect(row!.slice(-3)).toEqual(['', 'true', '']);
  });

  test('a name that a spreadsheet would run is made safe', () => {
    // The label begins with the switch's name, so a position's name cannot begin a cell; a cell of text never begins with a sign.
    const rows = table(clean.replace('"bridge" "both"', '"=1+1" "both"'), 'csv').split('\n').slice(1);
    for (const cell of rows.flatMap((row) => row.split(','))) expect(cell).not.toMatch(/^"?[=+@]/);
  });
});

describe('what it cannot do', () => {
  test('errors in the text are counted on stderr, the rest is shown', () => {
    const { code, out, err } = inProcess(['positions', 'a.lug'], folderWith({ 'a.lug': `${clean}part x : nothing\n` }));
    expect(code).toBe(0);
    expect(out).toContain('parallel(bridge, neck)');
    expect(err).toMatch(/^lugwork: a\.lug has 1 error in its text.*lugwork check/);
  });

  test('a faulty circuit has positions all the same', () => {
    expect(inProcess(['positions', 'a.lug'], folderWith({ 'a.lug': broken })).code).toBe(0);
  });

  test.each([
    [{ 'a.lug': library }, 'a.lug', 'a.lug declares no parts'],
    [{ 'f/a.lug': clean, 'f/b.lug': clean }, 'f', 'f contains 2 .lug files'],
    [{}, 'gone.lug', 'there is no such file'],
  ])('%#: exit code 2 with a message', (files, operand, message) => {
    const { code, out, err } = inProcess(['positions', operand], folderWith(files));
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(message);
  });

  test('a folder that holds one circuit means that circuit', () => {
    expect(inProcess(['positions', 'f'], folderWith({ 'f/a.lug': clean })).code).toBe(0);
  });
});

describe('--set', () => {
  const rowsOf = (text: string, ...words: string[]): Row[] => {
    const { out } = inProcess(['positions', 'a.lug', '--format', 'json', ...words], folderWith({ 'a.lug': text }));
    return (JSON.parse(out) as { positions: Row[] }).positions;
  };

  test('one row for that setting, other controls at rest', () => {
    const [row, ...more] = rowsOf(clean, '--set', 'selector "neck"');
    expect(more).toEqual([]);
    expect(row).toEqual(rowsOf(clean)[2]);
    expect(rowsOf(clean, '--set', 'volume 10')).toEqual(rowsOf(clean).slice(0, 1));
  });

  test('a pot that is turned: half of its track lies below the wiper, and half in series with the pickup', () => {
    const [row] = rowsOf(clean.replace('audio', 'linear'), '--set', 'selector "bridge", volume 5');
    expect(row!.label).toBe('selector "bridge", volume 5');
    expect(row!.reads.ohm / beside(125e3, 125e3 + 6900)).toBeCloseTo(1, 4);
    expect(row!.level_db).toBeLessThan(rowsOf(clean)[0]!.level_db - 3);
  });

  test('what the circuit has not is said with its place', () => {
    const { code, err } = inProcess(['positions', 'a.lug', '--set', 'selector 9'], folderWith({ 'a.lug': clean }));
    expect(code).toBe(2);
    expect(err).toMatch(/^lugwork: --set, character \d+: /);
  });
});

describe('--distinct', () => {
  // The last position does what the first does.
  const twin = clean
    .replace('wire neck.hot    to selector.B3', 'wire neck.hot    to selector.B2')
    .replace('wire selector.B3 to selector.B2', 'wire selector.A1 to selector.A3');
  const distinct = (format: string): string =>
    inProcess(['positions', 'a.lug', '--distinct', '--format', format], folderWith({ 'a.lug': twin })).out;

  test('json: one row with the settings listed, the first its own', () => {
    const { positions } = JSON.parse(distinct('json')) as { positions: (Row & { settings: Pick<Row, 'set' | 'label'>[] })[] };
    expect(positions.map(({ sounds, settings }) => [sounds, settings.map(({ set }) => set['selector'])])).toEqual([
      ['bridge', ['1', '3']],
      ['parallel(bridge, neck)', ['2']],
    ]);
    for (const { set, label, settings } of positions) expect(settings[0]).toEqual({ set, label });
  });

  test('text, markdown, csv: the settings in one cell', () => {
    expect(distinct('text')).toMatch(/^selector "bridge"; selector "neck" +bridge /m);
    expect(distinct('markdown')).toMatch(/^\| selector "bridge"; selector "neck" +\| bridge /m);
    expect(distinct('csv').split('\n')[1]).toMatch(/^output\.tip,"1; 3","selector ""bridge""; selector ""neck""",bridge,/);
  });

  test('a row whose peak alone differs is another one', () => {
    // In the last position a capacitor lies across the pickup.
    const loaded = twin
      .replace('part saddle ', 'part load     : capacitor 1nF\npart saddle ')
      .replace('wire selector.frame', 'wire load.a to selector.B3\nwire load.b to volume.case\nwire selector.frame');
    const { out } = inProcess(['positions', 'a.lug', '--distinct', '--format', 'json'], folderWith({ 'a.lug': loaded }));
    const [first, , last] = (JSON.parse(out) as { positions: Row[] }).positions;
    expect([last!.sounds, last!.hum, last!.reads]).toEqual([first!.sounds, first!.hum, first!.reads]);
    expect(last!.peak!.hz).toBeLessThan(first!.peak!.hz);
  });
});
