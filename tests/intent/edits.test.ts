/** A repair's edits give, read again, the very circuit that was tried: chains, leads in place, screens, statements taken out and put in. */
import type { LugId } from '../../language/circuit/model.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editsOf } from '../../language/intent/repair/edits.js';
import { candidates } from '../../language/intent/repair/candidates.js';
import { rewired, type Change } from '../../language/intent/repair/change.js';
import { createFolding } from '../../language/intent/repair/folding.js';
import { wiringOf } from '../../language/intent/repair/wiring.js';
import { circuitOf, edited, example, wires } from './harness.js';

/** Chains of wire and solder, a shielded run, parts in place one by one and two at a time, comments, a statement over two lines. */
const workshop = `// A bench of everything.
instrument "Alder Lane no. 90"
part neck, bridge : single-coil 6.2k 2.4H 110pF
part volume, tone : pot 250k audio // alike
part dark : capacitor 22nF film from tone.1 to tone.case
part c, d : capacitor 470pF across volume.3 and volume.2
part cell : battery from tags.1 to tags.2
part tags : tag-strip
part saddle : bridge-ground
part output : jack

/** The hot lead. */
wire neck.hot to bridge.hot to volume.3 to tone.2 yellow 24awg // all in one
wire volume.2 to output.tip white 210mm shielded screen to output.sleeve
solder volume.1 to volume.case
wire neck.ground to bridge.ground to
  volume.case
wire saddle to volume.case to tone.case to output.sleeve bare 22awg /* the ground */
expect volume 0 : silent
`;

const texts = [
  workshop,
  ...[
    'two-single-coils-lever-4',
    'four-pole-lever-split-and-capacitors',
    'two-humbuckers-toggle-3',
    'battery-buffer-stereo-jack',
    'bass-two-circuits-four-cavities',
  ].map(example),
].map((text) => {
  const circuit = circuitOf(text);
  return { text, circuit, changes: candidates(wiringOf(circuit), createFolding(circuit).classes([]).slice()) };
});

/** Lugs that exist only where they are named go when nothing names them, and nothing was joined to them then. */
function same(text: string, circuit: (typeof texts)[number]['circuit'], changes: readonly Change[]): void {
  const edits = editsOf(circuit, changes);
  if (edits === undefined) return;
  const again = circuitOf(edited(text, edits));
  expect(again.problems.filter(({ severity }) => severity === 'error').map(({ message }) => message)).toEqual([]);
  expect(wires(again)).toEqual(wires(rewired(circuit, changes)));
}

describe('the text of a repair', () => {
  it('says what was tried, for any single change', () => {
    fc.assert(
      fc.property(fc.constantFrom(...texts), fc.nat(), ({ text, circuit, changes }, pick) => {
        same(text, circuit, [changes[pick % changes.length]!]);
      }),
      { numRuns: 400, seed: 6 },
    );
  });

  it('says what was tried, for any run taken out', () => {
    for (const { text, circuit, changes } of texts)
      for (const change of changes.filter(({ kind }) => kind === 'remove')) same(text, circuit, [change]);
  });

  it('says what was tried, for two changes at once', () => {
    fc.assert(
      fc.property(fc.constantFrom(...texts), fc.nat(), fc.nat(), ({ text, circuit, changes }, one, two) => {
        const first = changes[one % changes.length]!;
        const next = rewired(circuit, [first]);
        const seconds = candidates(wiringOf(next), createFolding(next).classes([]).slice());
        const second = seconds[two % seconds.length]!;
        const edits = editsOf(circuit, [first, second]);
        if (edits === undefined) return;
        const again = circuitOf(edited(text, edits));
        expect(wires(again)).toEqual(wires(rewired(next, [second])));
      }),
      { numRuns: 200, seed: 6 },
    );
  });

  it('leaves comments and the rest of the line where they are', () => {
    const { text, circuit, changes } = texts[0]!;
    const tip = changes.find(({ kind, moves }) => kind === 'move' && circuit.lugs[moves[0].mention.lug]!.label === 'output.tip')!;
    const lines = edited(text, editsOf(circuit, [tip])!).split('\n');
    const before = text.split('\n');
    expect(lines.filter((line, i) => line !== before[i])).toHaveLength(1);
    expect(lines.length).toBe(before.length);
  });

  it('puts a new wire below those of its net, aligned with them', () => {
    const bare = example('two-single-coils-lever-3').replace(/^wire neck\.ground.*\n/m, '');
    const circuit = circuitOf(bare);
    const lug = (label: string): LugId => circuit.lugs.find((other) => other.label === label)!.id;
    const change: Change = { kind: 'add', moves: [], adds: [lug('neck.ground'), lug('volume.case')], cost: 1 };
    const lines = edited(bare, editsOf(circuit, [change])!).split('\n');
    const at = lines.indexOf('wire neck.ground    to volume.case');
    expect(lines[at - 1]).toBe('wire saddle         to volume.case black 22awg');
  });

  it('does not run into a last line without an end', () => {
    const text = 'part a, b : star\npart output : jack\nwire a to output.sleeve';
    const circuit = circuitOf(text);
    const lug = (label: string): LugId => circuit.lugs.find((other) => other.label === label)!.id;
    const change: Change = { kind: 'add', moves: [], adds: [lug('b'), lug('output.sleeve')], cost: 1 };
    const again = circuitOf(edited(text, editsOf(circuit, [change])!));
    expect(again.problems).toEqual([]);
    expect(wires(again)).toEqual(['wire a output.sleeve', 'wire b output.sleeve']);
  });
});
