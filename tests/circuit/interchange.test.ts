/** The JSON form of circuits: it reads back to the same circuit, its schema holds for it, and what is no circuit is refused with a reason. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  circuitFromJson,
  circuitSchema,
  circuitToJson,
  type AnalysedCircuit,
  type Circuit,
} from '../../language/circuit/index.js';
import { positionTable } from '../../language/electrics/index.js';
import { findings } from '../../language/findings.js';
import { createProject } from '../../language/project.js';
import { generateCircuit } from '../bench/circuits.js';
import { Ajv } from '../command/ajv.js';
import { filesUnder, read } from '../harness/checkout.js';
import { inProcess, inProcessAsync } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

const validate = new Ajv().compile(circuitSchema());
const addresses = { nameOf: (uri: string) => uri, uriOf: (name: string) => name };
const examples = filesUnder('examples').filter((path) => path.endsWith('.lug'));

function lowered(text: string, uri: string): AnalysedCircuit {
  return createProject({
    read: (asked) =>
      asked === uri ? text : examples.includes(asked.slice('bench:/'.length)) ? read(asked.slice('bench:/'.length)) : undefined,
  }).circuit(uri)!;
}

/** Through text, as another program would have it. */
function roundTrip(circuit: Circuit): AnalysedCircuit {
  const json: unknown = JSON.parse(JSON.stringify(circuitToJson(circuit, addresses)));
  expect(validate(json) ? [] : validate.errors).toEqual([]);
  const back = circuitFromJson(json, addresses);
  if ('problem' in back) throw new Error(back.problem);
  return back.circuit;
}

/** What the form leaves out: the index of names, the types, and the fixes of faults of the text. */
function kept(circuit: Circuit): unknown {
  const rest = Object.entries(circuit).filter(([key]) => !['names', 'types', 'files', 'problems'].includes(key));
  const problems = circuit.problems.map(({ rule, message, range }) => ({ rule, message, range }));
  return { ...Object.fromEntries(rest), problems };
}

describe('reads back to the same circuit', () => {
  test.each(examples)('%s', (path) => {
    const circuit = lowered(read(path), `bench:/${path}`);
    const back = roundTrip(circuit);
    expect(kept(back)).toEqual(JSON.parse(JSON.stringify(kept(circuit))));
    const described = (one: AnalysedCircuit) =>
      findings(one).map(({ rule, severity, message, range }) => ({ rule, severity, message, range }));
    expect(described(back)).toEqual(described(circuit));
    if (!circuit.isLibrary) expect(positionTable(back, { response: true })).toEqual(positionTable(circuit, { response: true }));
  });

  test('generated circuits', () => {
    fc.assert(
      fc.property(fc.integer({ min: 4, max: 40 }), fc.nat(1000), (parts, seed) => {
        const circuit = lowered(generateCircuit(parts, seed), 'bench:/generated.lug');
        expect(kept(roundTrip(circuit))).toEqual(JSON.parse(JSON.stringify(kept(circuit))));
      }),
      { seed: 8, numRuns: 25 },
    );
  });

  test('any text at all, cut and shuffled', () => {
    fc.assert(
      fc.property(fc.constantFrom(...examples), fc.array(fc.nat(), { maxLength: 8 }), (path, cuts) => {
        const lines = read(path).split('\n');
        for (const cut of cuts) lines.splice(cut % lines.length, 1, ...(cut % 3 === 0 ? [lines[(cut * 7) % lines.length]!] : []));
        const circuit = lowered(lines.join('\n'), `bench:/${path}`);
        expect(kept(roundTrip(circuit))).toEqual(JSON.parse(JSON.stringify(kept(circuit))));
      }),
      { seed: 9, numRuns: 60 },
    );
  });
});

describe('what is no circuit is refused with a reason', () => {
  const circuit = lowered(read('examples/one-pickup-volume-tone.lug'), 'bench:/a.lug');
  const json = (): Record<string, unknown> =>
    JSON.parse(JSON.stringify(circuitToJson(circuit, addresses))) as Record<string, unknown>;
  test.each([
    ['null', () => null, /the whole is not an object/],
    ['another version', () => ({ ...json(), lugwork: 2 }), /not a circuit of version 1/],
    ['no lists', () => ({ lugwork: 1, files: ['a.lug'] }), /\.parts is not a list/],
    [
      'an unknown lug',
      () => ({ ...json(), output: { part: 'output', tip: 'volume.9', sleeve: 'output.sleeve' } }),
      /\.output\.tip is not the name of a lug/,
    ],
    ['an unknown field', () => ({ ...json(), colour: 'red' }), /\.colour is not a known field/],
    ['a missing field', () => ({ ...json(), rig: { cable: 1e-10 } }), /\.rig\.input is not there/],
    ['a wrong place', () => ({ ...json(), titleRange: '3' }), /\.titleRange is not a place/],
  ])('%s', (_, make, reason) => {
    const read = circuitFromJson(make(), addresses);
    expect('problem' in read && read.problem).toMatch(reason);
  });
});

test('the published schema is the one of the code', () => {
  expect(JSON.parse(read('language/circuit/circuit.schema.json'))).toEqual(circuitSchema());
});

test('the command writes it and reads it back, beside the text or elsewhere', async () => {
  const folder = folderWith({ 'no-3.lug': read('examples/two-single-coils-lever-3.lug'), 'out/.keep': '' });
  expect(inProcess(['circuit', 'no-3.lug', '-o', 'out/no-3.json'], folder)).toEqual({ code: 0, out: '', err: '' });
  expect(inProcess(['check', 'out/no-3.json'], folder).out).toBe('1 file checked: no errors, no warnings\n');
  expect(inProcess(['positions', 'out/no-3.json'], folder).out).toBe(inProcess(['positions', 'no-3.lug'], folder).out);
  expect((await inProcessAsync(['compare', 'no-3.lug', 'out/no-3.json'], folder)).out).toContain('no electrical change');
  expect(JSON.parse(inProcess(['circuit', 'no-3.lug'], folder).out)).toMatchObject({ lugwork: 1, files: ['no-3.lug'] });
  const { code, err } = inProcess(['check', 'out/.keep.json'], folder);
  expect([code, err]).toEqual([2, expect.stringContaining('there is no such file') as string]);
});
