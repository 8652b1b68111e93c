/** Lengths against routes worked by hand, in millimetres; the working stands beside each. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { wireDiameter } from '../../language/circuit/index.js';
import { buildOf, channelFills, cutList, outsideDiameter, ownLeads } from '../../language/workshop/index.js';
import { createProject } from '../../language/project.js';
import { soundCircuit } from '../circuit/harness.js';

const text = `instrument "Alder Lane no. 61" { batch 3 }
cavity control depth 40mm
cavity pickups depth 20mm
cavity horn depth 30mm
channel control to pickups 80mm bore 5mm
channel pickups to horn 60mm bore 4mm
channel control to horn 300mm bore 6mm
plate main in control { volume at 20 30, tone at 60 35, output at 100 30 }
plate side in horn { choose at 10 10 }
place neck in pickups
part neck : single-coil { lead hot white 300mm, lead ground black 100mm }
part volume, tone : pot 250k audio
part choose : mini-spdt
part output : jack
wire neck.hot to choose.A1
wire neck.ground to volume.case
wire choose.A0 to volume.3 white 24awg
wire volume.3 to tone.3 yellow 24awg
wire volume.2 to output.tip yellow 24awg
wire volume.1 to volume.case bare 24awg
wire tone.case to volume.case black 24awg 47mm
wire output.sleeve to volume.case black
wire loose to volume.case black
part loose : bridge-ground
`;
const circuit = soundCircuit(text);
const run = (from: string, to: string) =>
  buildOf(circuit).runs.find(({ joint }) => circuit.lugs[joint.a]!.label === from && circuit.lugs[joint.b]!.label === to)!;
const mm = (metres: number | undefined): number | undefined => (metres === undefined ? undefined : Math.round(metres * 1e4) / 10);

describe('ways', () => {
  test.each([
    // 40 across + 5 along, 20 slack, 2 strips of 6: 77, up to the next 5.
    ['volume.3', 'tone.3', 77, 80],
    // 80 + 0 + 20 + 12 = 112.
    ['volume.2', 'output.tip', 112, 115],
    // On one part: 0 + 20 + 12 = 32.
    ['volume.1', 'volume.case', 32, 35],
    // Side plate down 30, across horn 50 (not measured), channel 60, across pickups 50, channel 80, across control 85 (80 + 5), up 40:
    // 395; two plates lifted 100, slack 20, strips 12: 527. The direct channel of 300 would make a way of 30 + 50 + 300 + 85 + 40 = 505.
    ['choose.A0', 'volume.3', 527, 530],
    // The text's own length stands, whatever the way takes: 40 + 5 + 20 + 12 = 77.
    ['tone.case', 'volume.case', 77, 47],
  ])('%s to %s takes %d mm, cut %d mm', (from, to, needed, cut) => {
    expect([mm(run(from, to).needed), mm(run(from, to).length)]).toEqual([needed, cut]);
  });

  test('an own lead has the length that it has, and one strip', () => {
    // Across pickups 50, channel 60, across horn 50, up 30: 190; lift 50, slack 20, strip 6: 266.
    expect([mm(run('neck.hot', 'choose.A1').needed), mm(run('neck.hot', 'choose.A1').length)]).toEqual([266, 300]);
    // Across pickups 50, channel 80, across control 85, up 40: 255; 50 + 20 + 6: 331. Measured alone: 80 + 40 + 6 = 126, more than the 100 it has.
    expect([mm(run('neck.ground', 'volume.case').needed), mm(run('neck.ground', 'volume.case').least)]).toEqual([331, 126]);
    expect(ownLeads(buildOf(circuit)).map(({ verdict }) => verdict)).toEqual([
      'reaches',
      // 331 − 100, and 6 for the strip that the splice takes: 237.
      'too short: splice on 240 mm',
    ]);
  });

  test('where a part lies nowhere its wire is measured in place', () => {
    expect(run('loose', 'volume.case').length).toBeUndefined();
    expect(run('loose', 'volume.case').route).toMatchObject({ known: false, why: 'the text does not say where loose is' });
  });

  test('own leads are in no cut list; totals are for the batch', () => {
    const groups = cutList(buildOf(circuit));
    expect(groups.flatMap(({ cuts }) => cuts.map(({ from }) => from))).not.toContain('neck.hot');
    // 80 + 115, three instruments.
    expect(mm(groups.find(({ kind }) => kind === 'yellow 24 AWG')!.total)).toBe(585);
    // Output to volume 80: 112, cut 115; 240 that lengthen the pickup's ground lead; the loose one is measured.
    const black = groups.find(({ kind }) => kind === 'black 22 AWG')!;
    expect([mm(black.total), black.unmeasured]).toEqual([1065, 3]);
  });
});

test('channels hold what the shortest ways lead through them', () => {
  const fills = channelFills(buildOf(circuit)).map(({ passing, share, isFull }) => [
    passing.length,
    Math.round(share * 1000),
    isFull,
  ]);
  // control–pickups, bore 5: ground lead 1.6, one 24 gauge 1.42: (2.56 + 2.0164)/25 = 0.183. pickups–horn, bore 4: the same two in 16: 0.286.
  expect(fills).toEqual([
    [2, 183, false],
    [2, 286, false],
    [0, 0, false],
  ]);
});

test('conductor diameters of 22, 24 and 26 gauge (ASTM B258 form; handbook 0.644, 0.511, 0.405 mm)', () => {
  expect([22, 24, 26].map((gauge) => Number((wireDiameter(gauge) * 1000).toFixed(4)))).toEqual([0.6438, 0.5106, 0.4049]);
  // Outside diameters with 300 V PVC, from memory.
  expect([22, 24, 26].map((gauge) => outsideDiameter(gauge) * 1000)).toEqual([1.57, 1.42, 1.3]);
});

describe('two circuits over four cavities, in millimetres', () => {
  const folder = new URL('../../examples/', import.meta.url);
  const read = (uri: string): string => readFileSync(new URL(uri), 'utf8');
  const two = createProject({ read }).circuit(new URL('bass-two-circuits-four-cavities.lug', folder).href)!;
  const lengthOf = (from: string, to: string) =>
    buildOf(two).runs.find(({ joint }) => two.lugs[joint.a]!.label === from && two.lugs[joint.b]!.label === to)!;

  test.each([
    // On the plate of the switches from (86, 20) to (56, 20): 30, slack 20, strips 12: 62.
    ['circuit.B1', 'neck-volume.3', 62, 65],
    // Down 34, across the switches 64 (22 to 86), channel 35, across 50, channel 55, across 50, channel 30, across the control cavity 126 + 36
    // (20 to 146 and 30 to 66), up 36: 516; two plates lifted 100, slack 20, strips 12: 648.
    ['circuit.B2', 'blend.2a', 648, 650],
    // Across 50, channel 55, across 50, channel 30, across the control cavity 162: 347; 20 and 12: 379.
    ['neck-rout', 'ground', 379, 380],
    // Down 36 and across 162, one plate lifted 50, 20 and 12: 280.
    ['volume.1', 'ground', 280, 280],
    // On the floor of the cavity from (70, 66) to (20, 66): 50, 20 and 12: 82.
    ['stage.minus', 'ground', 82, 85],
  ])('%s to %s takes %d, cut %d', (from, to, needed, cut) => {
    expect([mm(lengthOf(from, to).needed), mm(lengthOf(from, to).length)]).toEqual([needed, cut]);
  });

  test('an own lead is checked against the same way with one strip', () => {
    // Across neck-rout 50, channels 55 and 30, across bridge-rout 50, across the control cavity 162: 347; 20 and 6: 373.
    expect([mm(lengthOf('neck.ground', 'ground').needed), mm(lengthOf('neck.ground', 'ground').length)]).toEqual([373, 480]);
  });
});
