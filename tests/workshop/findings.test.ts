/** What the bench finds where the text gives the measures, with the figures in the message. */
import { expect, test } from 'vitest';
import { buildOf, benchFindings } from '../../language/workshop/index.js';
import { soundCircuit } from '../circuit/harness.js';

const base = (changes: {
  readonly volume?: string;
  readonly neck?: string;
  readonly bore?: string;
  readonly build?: string;
}): string => `instrument "Alder Lane no. 63"
cavity control depth 34mm
cavity neck-rout depth 20mm
cavity horn depth 30mm
channel horn to neck-rout 90mm bore ${changes.bore ?? '6mm'}
channel neck-rout to control 120mm bore ${changes.bore ?? '6mm'}
plate main in control { volume at 20 30, output at 80 30 }
plate side in horn { choose at 10 10 }
place neck in neck-rout
part neck   : single-coil { lead hot white 400mm, lead ground black 400mm ${changes.neck ?? ''} }
part volume : pot 250k audio ${changes.volume ?? ''}
part choose : mini-spdt
part output : jack
wire choose.A0 to volume.3 white 24awg
wire choose.A1 to volume.1 black 24awg
wire neck.hot to volume.2
wire neck.ground to volume.case
wire volume.case to output.sleeve
${changes.build ?? ''}
`;
const found = (changes: Parameters<typeof base>[0]): string[] =>
  benchFindings(buildOf(soundCircuit(base(changes)))).map(({ rule, message }) => `${rule}: ${message}`);

test('nothing, where all has room', () => {
  expect(found({})).toEqual([]);
});

test('a pot deeper than its cavity', () => {
  expect(found({ volume: '{ body 36mm }' })).toEqual(['tight-fit: volume is 36 mm deep, but control is only 34 mm deep']);
});

test('wires that cross under a pickup: 20 − 19 leaves 1 mm for wires of 1.42 mm (24 gauge, from memory)', () => {
  expect(found({ neck: ', body 19mm' })).toEqual([
    'tight-fit: 2 wires have to pass under neck, up to 1.4 mm thick; only 1 mm is left',
  ]);
});

test('two wires that do not pass side by side, whatever the limit: 1.42 + 1.42 mm and 1.6 + 1.6 mm', () => {
  expect(found({ bore: '2.5mm' })).toEqual([
    'full-channel: Channel horn to neck-rout is too full: the two thickest of its 2 wires are 2.8 mm side by side in a bore of 2.5 mm',
    'full-channel: Channel neck-rout to control is too full: the two thickest of its 4 wires are 3.2 mm side by side in a bore of 2.5 mm',
  ]);
});

test('the shop’s limit: (2 · 1.42² + 2 · 1.6²)/6² = 25.4 %', () => {
  expect(found({ build: 'build { fill 20% }' })).toEqual([
    'full-channel: Channel neck-rout to control is too full: 4 wires fill 25 % of a bore of 6 mm; the limit is 20 %',
  ]);
});
