/** From the cursor to the drawing and back: the smallest thing around a place; what a panel that comes back is believed. */
import { expect, test } from 'vitest';
import { createLatest } from '../../extension/preview/latest.js';
import { idsAt, idsOnLine } from '../../extension/preview/places.js';
import { freshState, readState } from '../../extension/preview/state.js';
import { nextItem } from '../../extension/preview/webview/gestures/travel.js';
import { createDiagram } from '../../language/drawing/index.js';
import { createProject } from '../../language/project.js';
import { drawnPlaces } from '../../server/lsp/panels/preview-places.js';

const uri = 'file:///no-9.lug';
const text = `part coil : single-coil 6k 2H 100pF
part volume : pot 250k
part out : jack
wire coil.hot to volume.3 to out.tip red
wire coil.ground to out.sleeve
expect volume 0 : silent
`;
const circuit = createProject({ read: (asked) => (asked === uri ? text : undefined) }).circuit(uri)!;
const places = drawnPlaces(circuit, createDiagram(circuit));
const at = (line: number, word: string): string[] =>
  idsAt(places, uri, { line, character: text.split('\n')[line]!.indexOf(word) + 1 });

test('a lug comes before its wire, a name before its statement', () => {
  expect(at(3, 'volume.3')).toEqual(['lug:volume.3']);
  expect(at(3, 'red')).toEqual(['wire:coil.hot~volume.3', 'wire:out.tip~volume.3']);
  expect(at(1, 'volume')).toEqual(['part:volume']);
  expect(at(1, '250k')).toEqual(['part:volume']);
  expect(at(5, 'silent')).toEqual(['part:volume']);
});

test('another file and an empty line are about nothing', () => {
  expect(idsAt(places, 'file:///other.lug', { line: 3, character: 6 })).toEqual([]);
  expect(idsAt(places, uri, { line: 6, character: 0 })).toEqual([]);
});

test('what cannot be drawn stands at the first lug of its line', () => {
  expect(idsOnLine(places, uri, 4)).toEqual(['lug:coil.ground']);
  expect(idsOnLine(places, uri, 2)).toEqual(['part:out']);
});

test('a kept state is read as far as it is one', () => {
  const kept = { ...freshState(uri), side: 'player', at: { positions: { s: '2', t: 7 }, rotations: { v: 3, w: Number.NaN } } };
  expect(readState({ ...kept, view: {} })).toEqual({
    uri,
    side: 'player',
    grounds: 'auto',
    at: { positions: { s: '2' }, rotations: { v: 3 } },
  });
  expect(readState({ uri, side: 'above', grounds: 1, at: null })).toEqual(freshState(uri));
  expect([undefined, null, 7, 'x', {}, { uri: 1 }].map(readState)).toEqual(Array(6).fill(undefined));
});

test('of many requests the first and the last are done', async () => {
  const done: number[] = [];
  const latest = createLatest<number>(
    async (value) => {
      await Promise.resolve();
      done.push(value);
      if (value === 3) throw new Error('once');
    },
    () => done.push(-1),
  );
  await Promise.all([1, 2, 3].map((value) => latest.ask(value)));
  await latest.ask(4);
  expect(done).toEqual([1, 3, -1, 4]);
});

test('the arrow keys find what lies that way', () => {
  const spots = [
    { id: 'a', x: 0, y: 0 },
    { id: 'right', x: 30, y: 4 },
    { id: 'far', x: 20, y: 60 },
    { id: 'below', x: 5, y: 40 },
  ];
  const [from] = spots;
  expect(['ArrowRight', 'ArrowDown', 'ArrowLeft', 'Tab'].map((key) => nextItem(spots, from!, key))).toEqual([
    'right',
    'below',
    undefined,
    undefined,
  ]);
});
