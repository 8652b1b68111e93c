/** Properties of the comparison over the examples: what must change nothing, and that nothing heard changes where it says so. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analysed, type AnalysedCircuit, type Circuit } from '../../language/circuit/index.js';
import { nets, positionTable } from '../../language/electrics/index.js';
import { filesUnder, read } from '../harness/checkout.js';
import { circuitOf, compareCircuits, compareTexts } from './harness.js';

const examples = filesUnder('examples')
  .filter((path) => /^examples\/[\w-]+\.lug$/.test(path))
  .map((path) => ({ path, text: read(path) }))
  .filter(({ text }) => !/^use /m.test(text) && /^instrument/m.test(text));

/** Statements with their own comments and further lines, from the first that is no comment. */
function statements(text: string): string[] {
  return text.split(/\n(?=[a-z]+ )/);
}

describe('changes nothing', () => {
  test.each(examples.map(({ path, text }) => [path, text]))('statements turned round in %s', (_, text) => {
    const change = compareTexts(text, `${statements(text).reverse().join('\n')}\n`);
    expect({ ...change, title: undefined }).toEqual({
      ...compareTexts(text, text),
      title: undefined,
    });
    expect(change.summary).toBe('no electrical change');
    expect([change.parts, change.wires, change.expectations, change.steps, change.cuts]).toEqual([[], [], [], [], []]);
  });

  test.each(examples.map(({ path, text }) => [path, text]))('every part renamed at once in %s', (_, text) => {
    const circuit = circuitOf(text);
    const renamed = renameAll(circuit, text);
    const change = compareTexts(text, renamed);
    expect(change.summary).toBe('no electrical change');
    expect(change.parts.every(({ what }) => what === 'name')).toBe(true);
    expect(change.parts.length).toBe(circuit.parts.filter((part) => isNamed(part.family) && part.parent === undefined).length);
    expect([change.wires, change.positions, change.expectations, change.findings, change.steps]).toEqual([[], [], [], [], []]);
  });

  // Their screens are two parts of one name.
  test('nothing at all, where two shielded wires run between the same lugs', () => {
    const text = read('examples/two-single-coils-lever-3.lug').replace(
      /(wire volume\.2 +to output\.tip).*/,
      '$1 shielded\n$1 shielded',
    );
    expect(text).toContain('shielded\n');
    const change = compareTexts(text, text);
    expect([change.summary, change.parts, change.wires]).toEqual(['no electrical change', [], []]);
  });

  test('another wire within a net, in any example', () => {
    fc.assert(
      fc.property(fc.constantFrom(...examples), fc.nat(), fc.nat(), ({ text }, first, second) => {
        const circuit = circuitOf(text);
        const folded = nets(
          circuit,
          circuit.switches.map(() => -1),
        );
        const lug = circuit.lugs[first % circuit.lugs.length]!;
        const same = circuit.lugs.filter(
          ({ id, inner }) => folded.of[id] === folded.of[lug.id] && inner !== true && id !== lug.id,
        );
        const other = same[second % Math.max(1, same.length)];
        fc.pre(other !== undefined && isNameable(circuit, lug.id) && isNameable(circuit, other.id));
        const change = compareTexts(text, `${text}wire ${lug.label} to ${other.label}\n`);
        expect(change.summary).toBe('no electrical change, but the build changes');
      }),
      { seed: 8, numRuns: 40 },
    );
  }, 60_000);
});

test('where it says that nothing changes electrically, the position tables are the same, and the other way round', () => {
  let reported = 0;
  fc.assert(
    fc.property(fc.constantFrom(...examples), fc.nat(), fc.nat(), fc.boolean(), ({ text }, first, second, isTakenOut) => {
      const before = circuitOf(text);
      const after = rewired(before, first, second, isTakenOut);
      const change = compareCircuits(before, after);
      const isSame = tableOf(before) === tableOf(after);
      if (!change.electrical) expect(isSame).toBe(true);
      if (!isSame) expect(change.electrical).toBe(true);
      reported += change.positions.length > 0 ? 1 : 0;
      if (!isSame) expect(change.positions.length + change.notes.length).toBeGreaterThan(0);
    }),
    { seed: 81, numRuns: 80 },
  );
  expect(reported).toBeGreaterThan(15);
}, 120_000);

/** One wire taken out, or one of its ends put on another lug. */
function rewired(circuit: Circuit, first: number, second: number, isTakenOut: boolean): AnalysedCircuit {
  const wires = circuit.joints.filter(({ kind }) => kind === 'wire');
  const wire = wires[first % wires.length]!;
  if (isTakenOut) return renumbered({ ...circuit, joints: circuit.joints.filter((joint) => joint !== wire) });
  const lug = circuit.lugs[second % circuit.lugs.length]!.id;
  return analysed({ ...circuit, joints: circuit.joints.map((joint) => (joint === wire ? { ...joint, b: lug } : joint)) });
}

function renumbered(circuit: Circuit): AnalysedCircuit {
  return analysed({ ...circuit, joints: circuit.joints.map((joint, id) => ({ ...joint, id })) });
}

/** What the table says, to as many figures as a comparison tells. */
function tableOf(circuit: AnalysedCircuit): string {
  return positionTable(circuit, { response: true })
    .rows.map(({ sound, reads, response }) =>
      [
        sound.text,
        sound.silent ? '' : sound.hum,
        reads.ohm === null ? 'open' : reads.ohm < 0.05 ? '0' : reads.ohm.toPrecision(2),
        sound.silent ? '' : (response?.levelDb ?? 0).toFixed(0),
      ].join(),
    )
    .join('\n');
}

function isNamed(family: string): boolean {
  return !['cavity', 'plate', 'screen'].includes(family);
}

function isNameable(circuit: Circuit, id: number): boolean {
  const part = circuit.parts[circuit.lugs[id]!.part]!;
  return isNamed(part.family) && part.parent === undefined;
}

/** Every mention of a part's name as the circuit knows it, from the last to the first. */
function renameAll(circuit: Circuit, text: string): string {
  const lines = text.split('\n');
  const mentions = circuit.names.filter(({ kind, range }) => kind === 'part' && range.uri === circuit.uri);
  const places = [...new Map(mentions.map((use) => [`${use.range.start.line}:${use.range.start.character}`, use])).values()];
  places.sort((a, b) => b.range.start.line - a.range.start.line || b.range.start.character - a.range.start.character);
  for (const { range, name, part } of places) {
    if (part === undefined || !isNamed(circuit.parts[part]!.family) || circuit.parts[part]!.parent !== undefined) continue;
    const line = lines[range.start.line]!;
    const written = line.slice(range.start.character, range.end.character);
    expect(written).toBe(name);
    lines[range.start.line] = `${line.slice(0, range.start.character)}zz-${written}${line.slice(range.end.character)}`;
  }
  return lines.join('\n');
}

test('a pickup of which another coil is heard now is not lost, its coil is', () => {
  const circuit = (...joints: readonly string[]): string =>
    ['instrument "Alder Lane no. 47"', 'part neck : humbucker-4 8k 4H 90pF', 'part output : jack', ...joints, ''].join('\n');
  const north = circuit(
    'wire neck.north-start to output.tip',
    'wire neck.north-finish to neck.south-start to neck.south-finish to neck.shield to output.sleeve',
  );
  const south = circuit(
    'wire neck.south-start to output.tip',
    'wire neck.south-finish to neck.north-start to neck.north-finish to neck.shield to output.sleeve',
  );
  const none = circuit(
    'wire neck.north-start to neck.south-start to neck.shield to output.sleeve',
    'wire neck.north-finish to neck.south-finish',
  );
  expect(compareTexts(north, south).lost).toEqual(['neck.north']);
  expect(compareTexts(north, none).lost).toEqual(['neck']);
  expect(compareTexts(none, south).lost).toEqual([]);
});
