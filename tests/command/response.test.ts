/** `lugwork response` and `netlist` as processes: settings, bands, forms, and one response against its formula. */
import { describe, expect, test } from 'vitest';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { clean } from './circuits.js';

interface Sweep {
  set: Record<string, string>;
  points: { hz: number; db: number; deg: number }[];
  peak: { hz: number; db: number } | null;
  cutoff_hz: number | null;
}

function response(...words: string[]): string {
  return inProcess(['response', 'a.lug', ...words], folderWith({ 'a.lug': clean })).out;
}

function sweep(...words: string[]): Sweep {
  return JSON.parse(response('--format', 'json', ...words)) as Sweep;
}

describe('json', () => {
  test('has exactly the fixed names', () => {
    const result = sweep();
    expect(Object.keys(result)).toEqual(['set', 'points', 'peak', 'cutoff_hz']);
    expect(Object.keys(result.points[0]!)).toEqual(['hz', 'db', 'deg']);
  });

  test('200 points from 20 Hz to 20 kHz where nothing is said, logarithmic', () => {
    const { points } = sweep();
    expect(points).toHaveLength(200);
    expect([points[0]!.hz, points[199]!.hz]).toEqual([20, 20_000]);
    expect(points[100]!.hz / points[99]!.hz).toBeCloseTo(1000 ** (1 / 199), 4);
  });

  test('the band asked for', () => {
    const { points } = sweep('--from', '100', '--to', '10000', '--points', '3');
    expect(points.map(({ hz }) => hz)).toEqual([100, 1000, 10_000]);
  });

  test('a pickup into its load, by the formula', () => {
    // Source R + sL with C of the winding across, into 250 k, 1 M and 500 pF side by side:
    // H(s) = 1 / (1 + (R + sL)(1/Rl + sC)), C = winding and cable together. Textbook, as in electrics of a loaded RLC source.
    const [r, l, c, load] = [6200, 2.4, 110e-12 + 500e-12, 200e3];
    for (const { hz, db } of sweep('--set', 'selector 3', '--points', '9').points) {
      const w = 2 * Math.PI * hz;
      const [re, im] = [1 + r / load - w * w * l * c, w * (l / load + r * c)];
      expect(db).toBeCloseTo(-20 * Math.log10(Math.hypot(re, im)), 2);
    }
  });
});

describe('--set', () => {
  test('is read as an expect line is: numbers, names, pots', () => {
    expect(sweep('--set', 'selector 2, volume 5').set).toEqual({ selector: '2' });
    expect(sweep('--set', 'selector "both"').set).toEqual({ selector: '2' });
  });

  test.each([
    ['selektor 1', /selector/],
    ['selector 9', /selector/],
    ['selector "noth"', /selector|both|neck/],
    ['volume 11', /volume|10/],
    ['saddle 3', /saddle/],
    ['gibberish', /--set/],
    ['', /--set/],
    ['selector 1 : silent\nexpect selector 2', /--set/],
  ])('%j is refused with a sentence', (words, message) => {
    const { code, out, err } = inProcess(['response', 'a.lug', '--set', words], folderWith({ 'a.lug': clean }));
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^lugwork: --set[^\n]+\n$/);
    expect(err).toMatch(message);
  });
});

describe('other forms', () => {
  test('text: the setting, peak and corner in words, and a plot no wider than asked for', () => {
    const out = response('--set', 'selector 2');
    expect(out).toMatch(/^Alder Lane no\. 3\nselector "both"\n\nlevel .* dB, peak \+.* dB above it at .* kHz, -3 dB at .* kHz\n/);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(out).toContain('*');
  });

  test('text: silence is said', () => {
    expect(response('--set', 'volume 0')).toContain('Silent');
  });

  test('csv: a head and a line a point', () => {
    const lines = response('--format', 'csv', '--points', '5').trimEnd().split('\n');
    expect(lines[0]).toBe('hz,db,deg');
    expect(lines).toHaveLength(6);
  });

  test('svg: stands by itself, with both axes named', () => {
    const svg = response('--format', 'svg');
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" viewBox="[\d ]+"/);
    expect(svg).toContain('frequency, Hz (logarithmic)');
    expect(svg).toContain('level, dB');
    expect(svg).toContain('<title id="title">Alder Lane no. 3: ');
    expect(svg).not.toMatch(/NaN|Infinity|undefined|href|<script/);
  });
});

test('netlist: a deck that begins with a title and ends with .end', () => {
  const { code, out } = inProcess(['netlist', 'a.lug', '--set', 'selector 1'], folderWith({ 'a.lug': clean }));
  const lines = out.trimEnd().split('\n');
  expect(code).toBe(0);
  expect(lines[0]).toMatch(/^\*|^[A-Za-z]/);
  expect(lines.at(-1)!.toLowerCase()).toBe('.end');
});

describe('shielded wire', () => {
  const wired = (length: string): string =>
    `${clean.replace(/^(wire volume\.2 +to output\.tip).*$/m, `$1 ${length} shielded screen to output.sleeve`)}\nbuild { shielded-capacitance 150pF }\n`;

  test('whose length is not stated is named, and the response is still shown', () => {
    const result = inProcess(['response', 'a.lug', '--format', 'csv'], folderWith({ 'a.lug': wired('') }));
    expect(result.code).toBe(0);
    expect(result.err).toBe(
      'lugwork: a.lug: the capacitance of the shielded wire volume.2 to output.tip isn’t counted: state its length\n',
    );
    expect(result.out).toBe(inProcess(['response', 'a.lug', '--format', 'csv'], folderWith({ 'a.lug': clean })).out);
  });

  test('of a stated length lowers the peak and is a line of the deck', () => {
    const folder = folderWith({ 'a.lug': wired('1m'), 'plain.lug': clean });
    const peak = (file: string): number =>
      (JSON.parse(inProcess(['response', file, '--format', 'json'], folder).out) as Sweep).peak!.hz;
    expect(peak('a.lug')).toBeLessThan(peak('plain.lug') - 100);
    const { out } = inProcess(['netlist', 'a.lug'], folder);
    expect(out).toMatch(/^C_screen_of_volume_2_to_output_tip output_tip 0 1.5e-10$/m);
  });
});
