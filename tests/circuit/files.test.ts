/** A circuit over several files. */
import { describe, expect, test } from 'vitest';
import { resolveUse } from '../../language/circuit/index.js';
import { circuitOf, expectProblems, jointsOf, partOf, soundCircuit } from './harness.js';

const HOUSE = `
/** The shop's treble bleed. */
type bleed : assembly {
  lugs top bottom
  part c : capacitor 680pF from top to bottom
}
part volume : pot 500k audio
part ground : star
wire volume.case to ground
expect volume 0 : silent
`;

describe('addresses', () => {
  test.each([
    ['file:///shop/a.lug', 'house.lug', 'file:///shop/house.lug'],
    ['file:///shop/a.lug', './parts/house.lug', 'file:///shop/parts/house.lug'],
    ['file:///shop/jobs/a.lug', '../house.lug', 'file:///shop/house.lug'],
    ['file:///shop/a.lug', 'own parts (new).lug', 'file:///shop/own%20parts%20%28new%29.lug'],
    ['vscode-vfs://host/shop/a.lug', 'house.lug', 'vscode-vfs://host/shop/house.lug'],
    ['file:///a.lug', 'Brücke.lug', 'file:///Br%C3%BCcke.lug'],
    ['untitled:Untitled-1', 'house.lug', 'untitled:house.lug'],
  ])('%s uses %s', (uri, path, expected) => expect(resolveUse(uri, path)).toBe(expected));

  test.each([
    'house.txt',
    '/etc/house.lug',
    'file:///shop/house.lug',
    'parts\\house.lug',
    '../../house.lug',
    'house.lug?x=.lug',
    'C:house.lug',
  ])('no other path is taken: %s', (path) => expect(resolveUse('file:///shop/a.lug', path)).toBeUndefined());
});

test('types, parts, wires and expectations of a used file belong to the instrument', () => {
  const circuit = soundCircuit(
    `
use "house.lug"
part out : jack
part b : bleed from volume.3 to volume.2
wire volume.2 to out.tip
wire ground to out.sleeve
`,
    { 'house.lug': HOUSE },
  );
  expect(circuit.parts.map((part) => part.name)).toEqual(['volume', 'ground', 'out', 'b', 'b.c']);
  expect(jointsOf(circuit)).toContain('wire volume.case ground');
  expect(partOf(circuit, 'volume').range.uri).toBe('file:///bench/house.lug');
  expect(circuit.expectations).toHaveLength(1);
  expect(circuit.files).toEqual(['file:///bench/house.lug']);
  expect(circuit.isLibrary).toBe(false);
});

test('a file is taken once though two others use it, and files use files', () => {
  const circuit = soundCircuit('use "one.lug"\nuse "two.lug"\npart out : jack', {
    'one.lug': 'use "house.lug"\npart a : bleed',
    'two.lug': 'use "house.lug"\npart b : bleed',
    'house.lug': 'type bleed : assembly {\n  lugs x y\n}',
  });
  expect(circuit.parts.map((part) => part.name)).toEqual(['a', 'b', 'out']);
});

test('the title, the hand and the lead are those of the file itself', () => {
  const circuit = soundCircuit('instrument "Alder Lane no. 0"\nuse "other.lug"\nrig { cable 2m }', {
    'other.lug': 'instrument "Alder Lane no. 1" { hand left, batch 3 }\nrig { cable 9m }\npart p : pot',
  });
  expect(circuit).toMatchObject({ title: 'Alder Lane no. 0', hand: 'right', batch: 1 });
  expect(circuit.rig.cable).toBeCloseTo(200e-12, 18);
});

describe('what can’t be used', () => {
  test('a missing file, a path that is none, the file itself', () => {
    expectProblems(`
use "missing.lug"
//  ^^^^^^^^^^^^^ use: there is no file missing.lug
use "/etc/house.lug"
//  ^^^^^^^^^^^^^^^^ use: \`/etc/house.lug\` is not a path to another file: write it relative to this file, with / and the ending .lug
use "no-0.lug"
//  ^^^^^^^^^^ use: no-0.lug uses itself
`);
  });

  test('files in a circle', () => {
    const circuit = circuitOf('use "a.lug"\npart p : pot', {
      'a.lug': 'use "b.lug"\npart q : pot',
      'b.lug': 'use "a.lug"\npart r : pot',
    });
    expect(circuit.parts.map((part) => part.name)).toEqual(['r', 'q', 'p']);
    expect(circuit.problems).toMatchObject([
      {
        rule: 'use',
        message: 'a.lug has problems: these files use each other in a circle: a.lug → b.lug → a.lug',
        related: [
          { message: 'these files use each other in a circle: a.lug → b.lug → a.lug', range: { uri: 'file:///bench/b.lug' } },
        ],
      },
    ]);
  });

  test('more files than anyone has', () => {
    const files = Object.fromEntries(Array.from({ length: 210 }, (_, i) => [`f${i}.lug`, `part p${i} : star`]));
    const circuit = circuitOf(Array.from({ length: 210 }, (_, i) => `use "f${i}.lug"`).join('\n'), files);
    expect(circuit.parts).toHaveLength(200);
    expect(circuit.problems[0]).toMatchObject({
      message: 'more than 200 files are used; this one is ignored',
      range: { start: { line: 200 } },
    });
  });

  test('files in a row without end', () => {
    const files = Object.fromEntries(
      Array.from({ length: 40 }, (_, i) => [`f${i}.lug`, `use "f${i + 1}.lug"\npart p${i} : pot`]),
    );
    const circuit = circuitOf('use "f0.lug"', files);
    expect(circuit.parts).toHaveLength(16);
    expect(circuit.problems[0]!.related[0]!.message).toBe('files use each other more than 16 levels deep here');
  });

  test('a name that both have is told in the file that uses', () => {
    expectProblems(
      `
use "house.lug"
part volume : pot
//   ^^^^^^ duplicate-name: there is already a part volume
`,
      { 'house.lug': HOUSE },
    );
  });
});
