/** What stands on the sheet of the two-circuit instrument, and the command that writes it. Readings are worked by hand. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  buildOf,
  benchSheet,
  groundList,
  meterSheet,
  partsList,
  sheetHtml,
  sheetHtmlSteps,
  sheetMarkdown,
  sheetMarkdownSteps,
  solderPlan,
  tapTest,
} from '../../language/workshop/index.js';
import { createProject } from '../../language/project.js';
import { inProcessAsync } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

const folder = new URL('../../examples/', import.meta.url);
const project = createProject({ read: (uri) => readFileSync(new URL(uri), 'utf8') });
const buildFor = (name: string) => buildOf(project.circuit(new URL(name, folder).href)!);
const twoCircuits = buildFor('bass-two-circuits-four-cavities.lug');

describe('two circuits over four cavities', () => {
  test('cautions come before everything else', () => {
    for (const text of [sheetHtml(benchSheet(twoCircuits)), sheetMarkdown(benchSheet(twoCircuits))]) {
      const cautions = text.indexOf('Unplug from the amplifier');
      expect(cautions).toBeGreaterThan(0);
      expect(text.indexOf('Solder order')).toBeGreaterThan(cautions);
      expect(text).toContain('Local codes and licensed practice take precedence');
    }
  });

  test.each([sheetHtmlSteps, sheetMarkdownSteps])(
    'it is written a block at a time, so that a server can answer between two',
    (write) => {
      const sheet = benchSheet(twoCircuits);
      const steps = write(sheet);
      let count = 0;
      while (steps.next().done !== true) count++;
      expect(count).toBeGreaterThanOrEqual(sheet.sections.flatMap(({ blocks }) => blocks).length);
    },
  );

  test('plates at the bench, the farthest first; then the channels; cavities from the switches to the jack', () => {
    expect(solderPlan(twoCircuits).stages.map(({ title }) => title)).toEqual([
      'Plate switches, at the bench',
      'Plate controls, at the bench',
      'Through the body',
      'Cavity switch-cavity',
      'Cavity neck-rout',
      'Cavity bridge-rout',
      'Cavity control-cavity',
      'Test with the plates off the body',
      'Close',
    ]);
  });

  test('the star is soldered in groups of four, as its eleven come', () => {
    const heats = solderPlan(twoCircuits).stages.flatMap(({ steps }) =>
      steps.filter(({ key, kind }) => kind === 'heat' && key.startsWith('solder ground:')),
    );
    const counts = heats.map(({ soldered }) => soldered!.length);
    expect(counts).toEqual([4, 4, 3]);
    expect(heats.map(({ text }) => text.endsWith('; more come later.'))).toEqual([true, true, false]);
  });

  test('each wire on a shield is said to need a lug where the shield is paint, and no other wire', () => {
    const rows = benchSheet(twoCircuits).sections.flatMap(({ blocks }) =>
      blocks.flatMap((block) => (block.kind === 'ticks' ? block.rows : [])),
    );
    const said = rows.filter(({ minding }) => minding?.includes('solder lug under a screw') === true);
    const onShields = rows.filter(({ ends = [] }) => ends.some(({ lug }) => ['neck-rout', 'bridge-rout'].includes(lug)));
    expect(onShields).toHaveLength(2);
    expect(said).toEqual(onShields);
  });

  test('meter sheet: pickup beside the volume’s track at 200 k and 300 k (R·Rp/(R + Rp)), and a track alone', () => {
    const rows = meterSheet(twoCircuits).rows.map(({ setting, low, high }) => [setting, low, high]);
    // By hand: the windings 5 % and 1.965 % (5 K of copper) lower and higher beside the track's ends, the meter's 1 % and one in the third digit, rounded
    // outwards: 9.6 k 8.9408 to 10.278 k, beside the track 8.5582 to 9.9376 k, by the meter 8.46 to 10.2 k; a track of 50 k alone 39.5 to 60.7 k.
    expect(rows).toEqual([
      ['circuit "passive", others anywhere', '8.46k', '10.2k'],
      ['circuit "active", others anywhere', '39.5k', '60.7k'],
    ]);
  });

  test('tap test: the passive circuit answers at the neck alone', () => {
    expect(tapTest(twoCircuits)).toContainEqual({
      setting: 'circuit "passive", others anywhere',
      loud: ['neck'],
      quiet: ['bridge'],
      hum: 'present',
    });
  });

  test('every metal thing is on the ground list', () => {
    const names = groundList(twoCircuits).map(({ name }) => name);
    for (const name of ['volume.case', 'circuit.frame', 'saddle', 'control-cavity', 'neck-rout', 'switches', 'controls'])
      expect(names).toContain(name);
  });
});

test('parts alike are counted together, and those of another value by themselves', () => {
  const pots = (name: string) => partsList(buildFor(name)).filter(({ type }) => type === 'pot');
  expect(pots('two-single-coils-lever-3.lug').map(({ quantity, names }) => [quantity, names])).toEqual([[2, ['volume', 'tone']]]);
  expect(pots('bass-two-circuits-four-cavities.lug').map(({ quantity, names }) => [quantity, names])).toEqual([
    [1, ['neck-volume']],
    [1, ['tone']],
    [1, ['volume']],
  ]);
});

test('a value that could be taken for another is called by its name', () => {
  const [pickup] = partsList(buildFor('covered-humbucker-measured-peak.lug')).filter(({ type }) => type === 'humbucker');
  for (const value of ['8.2 kΩ', '110 pF', 'resonance 2.9 kHz', 'resonance-load 520 pF', 'eddy-resistance 40 kΩ'])
    expect(pickup!.values.split(', ')).toContain(value);
});

test('readings behind a stage are those of what is soldered by then', () => {
  const stage = solderPlan(buildFor('two-single-coils-lever-3.lug')).stages[0]!;
  const text = stage.tests.map((line) => line.text);
  // Tone's track on volume's track to ground: 250 k + 250 k, each 20 %, the meter 1 % and a digit.
  expect(text).toContain('tone.1 to selector.frame: 395k to 607k, never a short.');
  // The selector on "bridge" leads nowhere yet; its common sees volume's track: 250 k, 20 %.
  expect(text).toContain('selector.A0 to selector.frame: 197k to 304k, never a short.');
});

describe('lugwork sheet', () => {
  const text = readFileSync(new URL('two-single-coils-lever-3.lug', folder), 'utf8');

  test('the ending says the form', async () => {
    const cwd = folderWith({ 'a.lug': text });
    for (const [name, begin] of [
      ['a.html', '<!doctype html>'],
      ['a.md', '# Alder Lane'],
      ['a.csv', 'wire,kind,from,to,length_mm'],
    ] as const) {
      expect(await inProcessAsync(['sheet', 'a.lug', '-o', name], cwd)).toEqual({ code: 0, out: '', err: '' });
      expect(readFileSync(join(cwd, name), 'utf8').startsWith(begin)).toBe(true);
    }
    expect(readFileSync(join(cwd, 'a.html'), 'utf8')).toContain('<svg');
  });

  test('a file ending that names no format is reported', async () => {
    const { code, err } = await inProcessAsync(['sheet', 'a.lug', '-o', 'a.pdf'], folderWith({ 'a.lug': text }));
    expect(code).toBe(2);
    expect(err).toContain('a.pdf does not end in .html, .md or .csv');
  });

  test('lists by name, and the batch counted', async () => {
    const cwd = folderWith({ 'a.lug': text.replace('instrument "Alder Lane no. 3"', 'instrument "=1+1" { batch 4 }') });
    const { out } = await inProcessAsync(['sheet', 'a.lug', '--format', 'csv', '--list', 'parts'], cwd);
    expect(out.split('\n')).toContain('8,pot,"250 kΩ, audio",volume tone');
  });
});
