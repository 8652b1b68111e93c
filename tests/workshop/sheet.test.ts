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
const twoCircuits = buildFor('main-and-preset-circuits.lug');

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

  test('plates at the bench, the farthest first; then the channels; cavities from the horn to the jack', () => {
    expect(solderPlan(twoCircuits).stages.map(({ title }) => title)).toEqual([
      'Plate horn, at the bench',
      'Plate control, at the bench',
      'Through the body',
      'Cavity horn-rout',
      'Cavity neck-rout',
      'Cavity bridge-rout',
      'Cavity control-rout',
      'Test with the plates off the body',
      'Close',
    ]);
  });

  test('the star is soldered once, when the last of its eleven has come', () => {
    const heats = solderPlan(twoCircuits).stages.flatMap(({ steps }) =>
      steps.filter(({ key, kind }) => kind === 'heat' && key.startsWith('solder ground:')),
    );
    expect(heats.map(({ text }) => text)).toEqual(['Solder ground: W6, L3, L4, W11, W12, W13, W14, W15, W16, W17 and tone-cap.']);
  });

  test('meter sheet: pickup beside the volume’s track at 400 k and 600 k (R·Rp/(R + Rp))', () => {
    const rows = meterSheet(twoCircuits).rows.map(({ setting, low, high }) => [setting, low, high]);
    // By hand: the windings 5 % and 1.965 % (5 K of copper) lower and higher beside the track's ends, the meter's 1 % and one in the third digit, rounded
    // outwards: 6.6 k 5.98 to 7.07, 7.3 k 6.60 to 7.81, both 3.16 to 3.74; the track alone 395 to 607 k.
    expect(rows).toContainEqual(['circuit "preset", others anywhere', '5.98k', '7.07k']);
    expect(rows).toContainEqual(['bridge-on on, neck-on off, bass-cut "full", circuit "main"', '6.60k', '7.81k']);
    expect(rows).toContainEqual(['bridge-on on, neck-on on, bass-cut "full", circuit "main"', '3.16k', '3.74k']);
    expect(rows.filter(([, low, high]) => low === '395k' && high === '607k').length).toBeGreaterThan(0);
  });

  test('tap test: the preset circuit answers at the neck alone', () => {
    expect(tapTest(twoCircuits)).toContainEqual({
      setting: 'circuit "preset", others anywhere',
      loud: ['neck'],
      quiet: ['bridge'],
      hum: 'present',
    });
  });

  test('every metal thing is on the ground list', () => {
    const names = groundList(twoCircuits).map(({ name }) => name);
    for (const name of ['volume.case', 'circuit.frame', 'saddle', 'control-rout', 'neck-rout', 'horn', 'control'])
      expect(names).toContain(name);
  });

  test('parts alike are counted together', () => {
    const pots = partsList(twoCircuits).find(({ type, values }) => type === 'pot' && values.startsWith('500 k'))!;
    expect([pots.quantity, pots.names]).toEqual([3, ['volume', 'tone', 'preset-volume']]);
  });
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
