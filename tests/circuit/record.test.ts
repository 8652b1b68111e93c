/** The record of one instrument: a file beside the circuit that uses it, with what its parts measure in hand. */
import { expect, test } from 'vitest';
import { circuitOf, coilOf, expectProblems, lugOf, partOf, soundCircuit, trackOf } from './harness.js';

const shared = `instrument "Alder Lane no. 65" { batch 3, hand left }
part neck, bridge : single-coil 6.5k 2.6H 110pF { tolerance 4%, lead hot white 300mm, lead ground black 300mm }
part both : humbucker 8k
part volume : pot 250k audio
part output : jack
wire neck.hot to volume.3
wire bridge.hot to volume.3
wire both.hot to volume.3
wire volume.2 to output.tip white
`;
const files = { 'no-65.lug': shared };
const record = (text: string) => soundCircuit(`use "no-65.lug"\nrecord 2\n${text}`, files);

test('the instrument is the one that it uses; only its number is its own', () => {
  const circuit = record('');
  expect([circuit.title, circuit.batch, circuit.hand, circuit.record?.number]).toEqual(['Alder Lane no. 65', 3, 'left', 2]);
});

test('values in hand take the place of the shared ones, without tolerance; the twin of the same line keeps its own', () => {
  const circuit = record('actual neck 6.31k 2.68H\nactual volume 243k\n');
  expect(coilOf(circuit, 'neck').resistance).toMatchObject({ value: 6310, tolerance: 0 });
  expect(coilOf(circuit, 'neck').inductance).toMatchObject({ value: 2.68, tolerance: 0 });
  // What was not measured stays as it is written.
  expect(coilOf(circuit, 'neck').capacitance).toMatchObject({ value: 110e-12, tolerance: 0.04 });
  expect(coilOf(circuit, 'bridge').resistance).toMatchObject({ value: 6500, tolerance: 0.04 });
  expect(trackOf(circuit, 'volume').resistance).toMatchObject({ value: 243e3, tolerance: 0 });
  expect(trackOf(circuit, 'volume').taper).toBe('audio');
});

test('a humbucker’s reading is that of both coils', () => {
  const circuit = record('actual both 8.4k\n');
  expect(coilOf(circuit, 'both', 'north').resistance).toMatchObject({ value: 4200, tolerance: 0 });
});

test('lead colours of the pickup in hand', () => {
  const circuit = record('actual neck { lead hot red }\n');
  const leads = partOf(circuit, 'neck').leads!.map(({ lug, colour, length }) => [circuit.lugs[lug]!.label, colour, length]);
  expect(leads).toEqual([
    ['neck.hot', 'red', 0.3],
    ['neck.ground', 'black', 0.3],
  ]);
  const joint = circuit.joints.find(({ a }) => a === lugOf(circuit, 'neck.hot').id);
  expect(joint?.colour).toBe('red');
});

test('what was done, changed and read before', () => {
  const { record: made } = soundCircuit(
    `use "no-65.lug"
record 3 {
  by "A. Lane", date "2026-11-25"
  changed "New jack"
  changed "Fresh strings"
  before "neck: open"
  done "solder volume.2: output.tip"
}
`,
    files,
  );
  expect(made).toMatchObject({
    number: 3,
    by: 'A. Lane',
    date: '2026-11-25',
    changed: ['New jack', 'Fresh strings'],
    before: ['neck: open'],
    done: ['solder volume.2: output.tip'],
  });
});

test('a circuit without one has none, and parts may be called record and actual', () => {
  expect(circuitOf(shared).record).toBeUndefined();
  const names = soundCircuit('part record, actual : pot 250k\n').parts.map(({ name }) => name);
  expect(names).toEqual(['record', 'actual']);
});

test('what is wrong is told at its place', () => {
  expectProblems(
    `use "no-65.lug"
record 0 { chnged "x", by 5k }
//     ^ value: a record needs the number of its instrument in the batch: record 1
//         ^^^^^^ property: a record has no property chnged; it takes by, date, changed, before and done; did you mean changed?
//                     ^^^^^ property: by takes text in quotes: by "…"
actual nekc 6k
//     ^^^^ unknown-name: there is no part nekc; did you mean neck?
actual neck 6k
actual neck 7k
//     ^^^^ duplicate-name: neck already has a measured value
actual volume 22nF
//            ^^^^ value: 22nF is a capacitance; pot takes a resistance such as 250k
record 2
//< \`record 2\` form: this is a second record; a file is the record of one instrument
`,
    files,
  );
});
