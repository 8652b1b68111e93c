/** Whole circuits: the reference's, and every example of the workshop, have nothing wrong with their text. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { lower } from '../../language/circuit/index.js';
import { parseText } from '../../language/grammar/index.js';
import { createProject } from '../../language/project.js';
import { lugOf, soundCircuit } from './harness.js';

const REFERENCE = `
/** Two single-coils, lever switch, one volume, one tone. */
instrument "Alder Lane no. 3"

part bridge   : single-coil 6.9k 2.9H 120pF { wound reverse, magnet south }
part neck     : single-coil 6.2k 2.4H 110pF { lead hot white 300mm, lead ground black 300mm }
part selector : lever-3 { positions "bridge" "both" "neck" }
part volume   : pot 250k audio
part tone     : pot 250k audio
part tone-cap : capacitor 22nF film from tone.1 to tone.case
part saddle   : bridge-ground
part output   : jack

wire bridge.hot  to selector.A1
wire neck.hot    to selector.B3
wire selector.A1 to selector.A2
wire selector.B3 to selector.B2
wire selector.A0 to selector.B0 to volume.3 yellow 22awg
wire volume.3    to tone.2
wire volume.2    to output.tip white
solder volume.1  to volume.case
wire bridge.ground  to volume.case
wire neck.ground    to volume.case
wire selector.frame to volume.case black
wire saddle         to volume.case black
wire volume.case to tone.case to output.sleeve black

expect selector "bridge" : sounds bridge, hum present
expect selector "both"   : sounds parallel(neck, bridge), hum cancelled
expect selector "neck"   : sounds neck, reads 6.05k within 15%
expect volume 0          : silent
`;

test('the reference’s whole circuit', () => {
  const circuit = soundCircuit(REFERENCE);
  expect(circuit.title).toBe('Alder Lane no. 3');
  expect(circuit.parts.map((part) => part.name)).toEqual([
    'bridge',
    'neck',
    'selector',
    'volume',
    'tone',
    'tone-cap',
    'saddle',
    'output',
  ]);
  // Counted by hand: 14 runs of wire, one solder joint, the capacitor's two leads.
  expect(circuit.joints.map((joint) => joint.kind).filter((kind) => kind === 'wire')).toHaveLength(14);
  expect(circuit.joints.map((joint) => joint.kind).filter((kind) => kind === 'solder')).toHaveLength(3);
  expect(circuit.expectations).toHaveLength(4);
  expect(circuit.output).toEqual({ part: 7, tip: lugOf(circuit, 'output.tip').id, sleeve: lugOf(circuit, 'output.sleeve').id });
  expect(circuit.lugs.filter((lug) => lug.metal).map((lug) => lug.label)).toEqual([
    'selector.frame',
    'volume.case',
    'tone.case',
    'saddle',
    'output.sleeve',
  ]);
});

const folder = new URL('../../examples/', import.meta.url);
const examples = readdirSync(folder).filter((name) => name.endsWith('.lug'));

test.each(examples)('%s', (name) => {
  const project = createProject({
    read: (uri) => {
      const file = new URL(uri);
      return readdirSync(folder).includes(file.pathname.split('/').at(-1)!) ? readFileSync(file, 'utf8') : undefined;
    },
  });
  expect(project.circuit(new URL(name, folder).href)!.problems).toEqual([]);
});

test('the same text gives the same circuit', () => {
  const [one, other] = [lower(parseText('file:///a.lug', REFERENCE)), lower(parseText('file:///a.lug', REFERENCE))];
  expect(other).toEqual(one);
});
