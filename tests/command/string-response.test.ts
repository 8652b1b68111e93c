/** `lugwork response --string`: one string in every form, what is asked for and isn't there, and that nothing else changes with the geometry. */
import { describe, expect, test } from 'vitest';
import { inProcess, inProcessAsync } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { readMarkup } from '../harness/well-formed.js';
import { clean } from './circuits.js';

/** The clean circuit with its strings and the places of its pickups. */
const placed = clean
  .replace('no. 3"', 'no. 3" { scale 648mm, tuning "E2 A2 D3 G3 B3 E4" }')
  .replace('magnet south }', 'magnet south, from-bridge 42mm, aperture 20mm }')
  .replace('2.4H 110pF', '2.4H 110pF { from-bridge 165mm }');
const folder = folderWith({
  'a.lug': placed,
  'clean.lug': clean,
  'untuned.lug': placed.replace(', tuning "E2 A2 D3 G3 B3 E4"', ''),
  'unplaced.lug': placed.replace(' { from-bridge 165mm }', ''),
  'broken.lug': placed.replace('wire neck.ground    to volume.case\n', ''),
});
const run = (...words: string[]) => inProcess(words, folder);

interface StringJson {
  set: Record<string, string>;
  string: { number: number; note: string; hz: number };
  points: { hz: number; db: number; deg: number }[];
  partials: { partial: number; hz: number; db: number; deg: number; factors: Record<string, number> }[];
  notes: string[];
}

describe('in each form', () => {
  test('json has the curve, and each partial with what each pickup senses of it', () => {
    const { code, out, err } = run(
      'response',
      'a.lug',
      '--string',
      '6',
      '--set',
      'selector 2',
      '--points',
      '3',
      '--format',
      'json',
    );
    expect([code, err]).toEqual([0, '']);
    const json = JSON.parse(out) as StringJson;
    expect(json.set).toEqual({ selector: '2' });
    expect(json.string).toEqual({ number: 6, note: 'E2', hz: 82.4069 });
    expect(json.points.map(({ hz }) => Number(hz.toFixed(1)))).toEqual([20, 632.5, 20_000]);
    expect(json.partials).toHaveLength(242);
    // By hand: sin(π 165/648) = 0.7173, without an aperture; sin(π 42/648) · sinc(20/1296) = 0.2022 · 0.9996.
    expect(json.partials[0]).toMatchObject({ partial: 1, hz: 82.4069, factors: { neck: 0.717, bridge: 0.202 } });
    expect(json.partials[1]!.hz).toBeCloseTo(164.814, 3);
    expect(json.notes).toContain('without an aperture a pickup senses a point: neck');
  });

  test('text has a line for each partial, and the plot', () => {
    const { out } = run('response', 'a.lug', '--string', 'E4', '--set', 'selector 1');
    expect(out).toMatch(/^Alder Lane no\. 3\nselector "bridge"\nstring 1, E4, 330 Hz\n\n/);
    expect(out.match(/^\d+ +[\d.]+ k?Hz +-?[\d.]+ dB +[+-][\d.]+$/gm)).toHaveLength(60);
    expect(out).toMatch(/^partial {2}frequency {2}level +bridge$/m);
  });

  test('csv has curve and partials in order of frequency', () => {
    const { out } = run('response', 'a.lug', '--string', '6', '--points', '4', '--format', 'csv');
    const lines = out.trimEnd().split('\n');
    expect(lines[0]).toBe('hz,db,deg,partial');
    expect(lines).toHaveLength(1 + 4 + 242);
    const hz = lines.slice(1).map((line) => Number(line.split(',')[0]));
    expect(hz).toEqual([...hz].sort((a, b) => a - b));
    expect(lines[1]).toMatch(/^20,.*,$/);
    expect(lines[2]).toMatch(/^82\.4069,.*,1$/);
  });

  test('svg marks the partials', () => {
    const { out } = run('response', 'a.lug', '--string', '6', '--format', 'svg');
    expect(readMarkup(out).problem).toBeUndefined();
    expect(out.match(/<circle class="peak"/g)!.length).toBeGreaterThan(50);
    expect(out).toContain('As string 6, E2, 82.4 Hz.');
  });

  test('a string by its number is the one by its note', () => {
    for (const [number, note] of [
      ['1', 'E4'],
      ['3', 'G3'],
      ['6', 'E2'],
    ] as const)
      expect(run('response', 'a.lug', '--string', number).out).toBe(run('response', 'a.lug', '--string', note).out);
  });
});

test.each([
  [
    ['clean.lug', '--string', '6'],
    'the file gives no scale, so that no string is known: instrument "…" { scale 648mm, tuning "E2 A2 D3 G3 B3 E4" }',
  ],
  [
    ['untuned.lug', '--string', '6'],
    'the file gives no tuning, so that no string is known: instrument "…" { scale 648mm, tuning "E2 A2 D3 G3 B3 E4" }',
  ],
  [['a.lug', '--string', '7'], 'there is no string 7; the strings are 6 (E2), 5 (A2), 4 (D3), 3 (G3), 2 (B3) and 1 (E4)'],
  [['a.lug', '--string', 'E3'], 'there is no string E3; the strings are 6 (E2), 5 (A2), 4 (D3), 3 (G3), 2 (B3) and 1 (E4)'],
  [
    ['unplaced.lug', '--string', '6', '--set', 'selector 2'],
    'it isn’t known where neck senses the string: add { from-bridge 165mm }, measured from the bridge to its middle',
  ],
])('%j cannot be shown', (words, message) => {
  const { code, out, err } = run('response', ...words);
  expect([code, out]).toEqual([2, '']);
  expect(err).toContain(message);
});

test('a pickup that is not heard needs no place', () => {
  expect(run('response', 'unplaced.lug', '--string', '6', '--set', 'selector 1').code).toBe(0);
});

test('silence is said, and shown in each form', () => {
  for (const format of ['text', 'json', 'csv', 'svg']) {
    const { code, err } = run('response', 'broken.lug', '--string', '6', '--set', 'selector 3', '--format', format);
    expect([code, err], format).toEqual([
      0,
      'lugwork: broken.lug: no coil reaches the output: the net of volume.2, output.tip has none\n',
    ]);
  }
});

test('every other output is the same with the geometry and without it', async () => {
  const commands = [
    ['check', 'FILE', '--format', 'json'],
    ['positions', 'FILE', '--format', 'json'],
    ['positions', 'FILE', '--format', 'markdown'],
    ['response', 'FILE', '--set', 'selector 2', '--format', 'json'],
    ['response', 'FILE', '--format', 'csv'],
    ['response', 'FILE'],
    ['netlist', 'FILE', '--set', 'selector 2'],
    ['draw', 'FILE'],
    ['sheet', 'FILE', '--format', 'markdown'],
    ['sheet', 'FILE', '--format', 'html'],
    ['expect', 'FILE', '--turns'],
    ['locate', 'FILE', '--format', 'json'],
  ];
  const [plain, measured] = [folderWith({ 'a.lug': clean }), folderWith({ 'a.lug': placed })];
  for (const words of commands) {
    const call = words.map((word) => (word === 'FILE' ? 'a.lug' : word));
    const [before, after] = [await inProcessAsync(call, plain), await inProcessAsync(call, measured)];
    expect(before.out, words.join(' ')).not.toBe('');
    expect(after, words.join(' ')).toEqual(before);
  }
  expect((await inProcessAsync(['compare', 'clean.lug', 'a.lug'], folder)).out).toContain(': no electrical change');
});
