/** Signatures: which edit changes which. */
import { describe, expect, test } from 'vitest';
import { intentSignature, looksSignature, topologySignature, valuesSignature } from '../../language/circuit/index.js';
import { circuitOf } from './harness.js';

const TEXT = `instrument "Alder Lane no. 0"
part p : single-coil 6.5k
part volume : pot 250k
part c : capacitor 22nF from volume.1 to volume.case
part out : jack
wire p.hot to volume.3 white
wire volume.2 to out.tip
expect volume 0 : silent
`;

function changes(edit: (text: string) => string): string[] {
  const [before, after] = [circuitOf(TEXT), circuitOf(edit(TEXT))];
  const signatures = { topology: topologySignature, values: valuesSignature, looks: looksSignature, intent: intentSignature };
  return Object.entries(signatures).flatMap(([name, of]) => (of(before) === of(after) ? [] : [name]));
}

describe('what an edit changes', () => {
  test.each<[string, (text: string) => string, string[]]>([
    ['a comment', (text) => `// A word more.\n${text.replace('part c', '\n/** The cap. */\npart c')}`, []],
    ['a comment in another place', (text) => text.replace('white', 'white // the lead'), []],
    ['a value', (text) => text.replace('22nF', '47nF'), ['values']],
    ['a taper', (text) => text.replace('250k', '250k audio'), ['values']],
    ['the lead', (text) => `${text}rig { cable 3m }\n`, ['values']],
    ['the kind of a capacitor', (text) => text.replace('22nF', '22nF ceramic'), ['values']],
    [
      'a longer body',
      (text) => text.replace('22nF from volume.1 to volume.case', '22nF from volume.1 to volume.case { body 20mm }'),
      ['looks'],
    ],
    ['a colour', (text) => text.replace('white', 'red'), ['looks']],
    ['the title', (text) => text.replace('no. 0', 'no. 1'), ['looks']],
    ['a moved wire', (text) => text.replace('p.hot to volume.3', 'p.hot to volume.2'), ['topology']],
    ['a wire more', (text) => `${text}wire p.ground to volume.case\n`, ['topology', 'looks']],
    ['a name', (text) => text.replaceAll('volume', 'level'), ['topology']],
    ['the meter', (text) => `${text}build { meter 5% }\n`, ['values', 'looks']],
    ['the capacitance of shielded wire', (text) => `${text}build { shielded-capacitance 150pF }\n`, ['values', 'looks']],
    ['an expectation', (text) => text.replace('volume 0', 'volume 1'), ['intent']],
  ])('%s', (_name, edit, expected) => expect(changes(edit)).toEqual(expected));
});

test('a signature is written once a circuit', () => {
  const circuit = circuitOf(TEXT);
  expect(topologySignature(circuit)).toBe(topologySignature(circuit));
});

test('the length of a shielded wire is a value where its capacitance counts', () => {
  const text = (length: string, build: string): string =>
    `${TEXT.replace('out.tip\n', `out.tip ${length} shielded screen to out.sleeve\n`)}${build}`;
  const counted = 'build { shielded-capacitance 150pF }\n';
  expect(valuesSignature(circuitOf(text('300mm', counted)))).not.toBe(valuesSignature(circuitOf(text('400mm', counted))));
  expect(valuesSignature(circuitOf(text('300mm', '')))).toBe(valuesSignature(circuitOf(text('400mm', ''))));
});
