/** Readings typed on the sheet: written into the record, changed, taken out, refused; every row of the meter sheets of two circuits has its place. */
import { describe, expect, test } from 'vitest';
import { buildOf, groundList, meterSheet, readingAt, type ReadingPlace } from '../../language/workshop/index.js';
import { readingText } from '../../server/lsp/panels/typed-reading.js';
import type { ReadingEdits, RecordReadings, SheetReading } from '../../server/protocol.js';
import { soundCircuit } from '../circuit/harness.js';
import { startEditor, uriOf, type Editor } from './harness.js';

/** Two pickups of 6.8 kΩ and 6.1 kΩ on a lever switch, and a pot in parallel. */
const shared = `instrument "Alder Lane no. 231" { batch 3 }
part bridge : single-coil 6.8k 3H 100pF { tolerance 5% }
part neck : single-coil 6.1k 2.5H 100pF { tolerance 5% }
part selector : lever-3 { positions "bridge" "both" "neck" }
part volume : pot 250k audio
part output : jack
wire bridge.hot to selector.A1
wire neck.hot to selector.A3
wire selector.A0 to volume.3
wire bridge.ground to neck.ground to volume.case
solder volume.1 to volume.case
wire volume.2 to output.tip
wire volume.case to output.sleeve
`;
const record = `use "no-231.lug"

record 2 {
}

actual bridge 6.8k
actual volume 240k
`;
const uri = uriOf('no-231.no-2.lug');
const bridge = { at: '', setting: 'selector "bridge"' };

async function opened(text = record): Promise<Editor> {
  const editor = await startEditor({ files: { [uriOf('no-231.lug')]: shared } });
  await editor.open('no-231.no-2.lug', text);
  return editor;
}
async function take(editor: Editor, text: string, place = bridge): Promise<ReadingEdits> {
  const answer = await editor.ask<ReadingEdits>('lugwork/takeReading', { uri, place, text });
  if ('edits' in answer)
    await editor.apply({ changes: { [uri]: answer.edits.map(({ range, text: newText }) => ({ range, newText })) } });
  return answer;
}
const read = (editor: Editor, places: readonly ReadingPlace[]): Promise<RecordReadings> =>
  editor.ask('lugwork/readings', { uri, places });
const readings = async (editor: Editor): Promise<readonly SheetReading[]> =>
  (await read(editor, [bridge, { at: '', setting: 'selector "neck"' }])).readings;

describe('a reading in the record', () => {
  // 6.8 kΩ parallel to 240 kΩ is 6.61 kΩ; 5 kΩ is not near it.
  test('is added, changed where it is, and taken out', async () => {
    const editor = await opened();
    expect(await readings(editor)).toEqual([null, null]);
    await take(editor, ' 6.61 kΩ');
    expect(editor.text(uri)).toContain('\nmeasured selector "bridge" : reads 6.61k\n');
    expect(await readings(editor)).toEqual([{ text: '6.61k', fits: true }, null]);
    await take(editor, '5k');
    expect(editor.text(uri).match(/^measured .*$/gm)).toEqual(['measured selector "bridge" : reads 5k']);
    expect(await readings(editor)).toEqual([{ text: '5k', fits: false }, null]);
    await take(editor, 'open');
    expect(editor.text(uri)).toContain('measured selector "bridge" : reads open\n');
    await take(editor, '', bridge);
    expect(editor.text(uri)).not.toContain('measured');
  });

  test('does not change a line for more settings, nor one for every instrument', async () => {
    const general = await opened(`${record}measured : reads 6k\n`);
    await take(general, '6.6k');
    expect(general.text(uri).match(/^measured .*$/gm)).toEqual([
      'measured : reads 6k',
      'measured selector "bridge" : reads 6.6k',
    ]);
    expect((await readings(general))[0]).toMatchObject({ text: '6.6k', fits: true });
    expect(await take(general, '', { at: '', setting: 'selector "neck"' })).toEqual({ refused: 'line' });
  });

  test('fills the line that waits for it, however it is written, and no other', async () => {
    const waiting = `measured selector 3 : reads ?
measured selector 1, volume 4 : reads ?
measured selector 1 : hums, reads ?
measured between output.tip and bridge.hot : reads ?
`;
    const editor = await opened(`${record}${waiting}`);
    await take(editor, '6.6k');
    expect(editor.text(uri)).toBe(`${record}${waiting.replace('hums, reads ?', 'hums, reads 6.6k')}`);
    // The place may be written with the name of the usual output.
    const atTip = await opened(`${record}measured at output.tip selector "bridge" : reads ?\n`);
    await take(atTip, '6.6k');
    expect(atTip.text(uri)).toBe(`${record}measured at output.tip selector "bridge" : reads 6.6k\n`);
  });

  test('of metal on ground is a line between its lug and the sleeve', async () => {
    const editor = await opened();
    const place: ReadingPlace = { at: '', setting: '', between: ['output.sleeve', 'volume.case'] };
    await take(editor, '0.4', place);
    expect(editor.text(uri)).toContain('\nmeasured between output.sleeve and volume.case : reads 0.4R\n');
    expect((await read(editor, [place, bridge])).readings).toEqual([{ text: '0.4R', fits: true }, null]);
    await take(editor, '2.5', place);
    expect(editor.text(uri).match(/^measured .*$/gm)).toEqual(['measured between output.sleeve and volume.case : reads 2.5R']);
    // 2 Ω is the most that a sound joint reads, common practice.
    expect((await read(editor, [place])).readings).toEqual([{ text: '2.5R', fits: false }]);
    const turned = await opened(`${record}measured between volume.case and output.sleeve : reads ?\n`);
    await take(turned, 'short', place);
    expect(turned.text(uri)).toContain('measured between volume.case and output.sleeve : reads short\n');
    expect((await read(turned, [place])).readings).toEqual([{ text: 'short', fits: true }]);
  });

  test('comes with what the record ticks', async () => {
    const editor = await opened(record.replace('{\n}', '{\n  done "seat bridge"\n}'));
    expect(await read(editor, [])).toEqual({ readings: [], done: ['seat bridge'] });
  });

  test('is refused where it is none, and where there is no such setting', async () => {
    const editor = await opened();
    expect(await take(editor, 'about 6')).toEqual({ refused: 'text' });
    expect(await take(editor, '6k', { at: '', setting: 'selector "middle"' })).toEqual({ refused: 'place' });
    expect(await take(editor, '6k', { at: 'output.ring', setting: '' })).toEqual({ refused: 'place' });
    expect(editor.text(uri)).toBe(record);
  });
});

test.each([
  ['6.15k', '6.15k'],
  ['6K8', undefined],
  ['820', '820R'],
  ['820 ohm', '820R'],
  ['1.2M', '1.2M'],
  [' Open ', 'open'],
  ['short', 'short'],
  ['6,15k', undefined],
  ['-3k', undefined],
  ['6k : reads 3k', undefined],
  ['', undefined],
])('%j is written as %j', (typed, written) => expect(readingText(typed)).toBe(written));

test('every row of the ground list that must be joined has a place that is found again; paint and what hangs free have none', () => {
  const build = buildOf(
    soundCircuit(
      `${shared}cavity control shield\nplace volume in control\nwire control to volume.case\npart saddle : bridge-ground\n`,
    ),
  );
  const places = groundList(build).map(({ name, place }) => [name, place && readingAt(build.circuit, place) !== undefined]);
  expect(Object.fromEntries(places)).toMatchObject({ 'volume.case': true, control: undefined, saddle: undefined });
});

test('every row of the meter sheet has a place that is found again', () => {
  const stereo = shared
    .replace('output : jack', 'output : jack-stereo')
    .replace('wire neck.hot to selector.A3', 'wire neck.hot to output.ring');
  for (const text of [shared, stereo]) {
    const build = buildOf(soundCircuit(text));
    const places = meterSheet(build).rows.map(({ place }) => place);
    expect(places.length).toBeGreaterThan(1);
    expect(places.filter((place) => readingAt(build.circuit, place) === undefined)).toEqual([]);
    expect(new Set(places.map((place) => JSON.stringify(place))).size).toBe(places.length);
  }
});
