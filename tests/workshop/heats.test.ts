/** Fewest second heats: the search against every choice there is, and whole circuits against every assignment of their wires' ends. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { buildOf, solderPlan } from '../../language/workshop/index.js';
import { fewestReheats, type Conflict } from '../../language/workshop/plan/heats.js';
import { lower, type AnalysedCircuit } from '../../language/circuit/index.js';
import { parseText } from '../../language/grammar/index.js';
import { soundCircuit } from '../circuit/harness.js';

test('the least cover is what trying every set of spots finds', () => {
  const conflicts = fc.array(
    fc.tuple(fc.nat(8), fc.nat(8)).filter(([a, b]) => a !== b),
    { maxLength: 14 },
  );
  fc.assert(
    fc.property(conflicts, (edges) => {
      const found = fewestReheats(edges);
      expect(edges.every(([a, b]) => found.chosen.has(a) || found.chosen.has(b))).toBe(true);
      expect(found.chosen.size).toBe(smallest(edges, 9));
      expect(found.exact && found.bound === found.chosen.size).toBe(true);
    }),
    { numRuns: 150 },
  );
});

test('beyond what is searched whole the bound is shown and holds', () => {
  // A ring of 31 spots needs 16 (half of an odd ring, rounded up); a matching proves 15.
  const ring: Conflict[] = Array.from({ length: 31 }, (_, i) => [i, (i + 1) % 31]);
  const { chosen, bound, exact } = fewestReheats(ring);
  expect(chosen.size).toBeGreaterThanOrEqual(16);
  expect(bound).toBeLessThanOrEqual(16);
  expect(exact).toBe(false);
});

function smallest(edges: readonly Conflict[], spots: number): number {
  let best = spots;
  for (let set = 0; set < 1 << spots; set++) {
    if (!edges.every(([a, b]) => (set >> a) & 1 || (set >> b) & 1)) continue;
    let size = 0;
    for (let rest = set; rest > 0; rest >>= 1) size += rest & 1;
    best = Math.min(best, size);
  }
  return best;
}

/** Plates with pots whose cases are joined inside (x1–x2) and across. */
const plates = (across: readonly string[]): string => `instrument "Alder Lane no. 60"
cavity upper depth 30mm
cavity lower depth 38mm
cavity horn depth 30mm
channel upper to lower 60mm bore 8mm
channel horn to upper 60mm bore 8mm
part u1, u2, l1, l2, h1, h2 : pot 250k audio
part output : jack
plate up in upper { u1 at 10 10, u2 at 40 10 }
plate low in lower { l1 at 10 10, l2 at 40 10, output at 70 10 }
plate hrn in horn { h1 at 10 10, h2 at 40 10 }
wire u1.case to u2.case
wire l1.case to l2.case
wire h1.case to h2.case
wire l2.case to output.sleeve
${across.join('\n')}
`;

describe('whole circuits', () => {
  test.each([
    ['one wire between two plates', ['wire u1.case to l1.case'], 1],
    ['a star of wires: one case pays for all', ['wire u1.case to l1.case', 'wire h1.case to l1.case'], 1],
    ['two wires that share no case', ['wire u1.case to l1.case', 'wire u2.case to h1.case'], 2],
    ['a ring over three plates', ['wire u1.case to l1.case', 'wire l1.case to h1.case', 'wire h1.case to u1.case'], 2],
    [
      'a shielded wire: its end with the screen comes at the bench, where the case is hot anyway',
      ['wire u1.3 to l1.3 shielded screen to l1.case'],
      0,
    ],
    ['a screen at both ends: one case pays', ['wire u1.3 to l1.3 shielded screen to l1.case and u1.case'], 1],
    ['a lug takes the wire: no case pays', ['wire u1.case to output.tip', 'wire u2.case to l1.3'], 0],
  ])('%s', (_, across, expected) => {
    const circuit = soundCircuit(plates(across));
    const { reheats, bound } = solderPlan(buildOf(circuit));
    expect(reheats).toBe(expected);
    expect(bound).toBe(expected);
    expect(everyAssignment(circuit)).toBe(expected);
  });
});

test('circuits at random: no assignment of the wires’ ends heats fewer cases twice', () => {
  const lug = fc.constantFrom(
    'u1.case',
    'u2.case',
    'l1.case',
    'l2.case',
    'h1.case',
    'h2.case',
    'u1.3',
    'l1.3',
    'h1.3',
    'output.tip',
  );
  const wire = fc.tuple(lug, lug, fc.option(lug, { nil: undefined, freq: 2 })).filter(([a, b]) => a !== b);
  fc.assert(
    fc.property(fc.array(wire, { maxLength: 6 }), (made) => {
      const lines = made.map(
        ([a, b, screen]) => `wire ${a} to ${b}${screen === undefined ? '' : ` shielded screen to ${screen}`}`,
      );
      const circuit = lower(parseText('file:///bench/no-0.lug', plates(lines)));
      const { reheats, bound } = solderPlan(buildOf(circuit));
      expect(reheats).toBe(everyAssignment(circuit));
      expect(bound).toBeLessThanOrEqual(reheats);
    }),
    { numRuns: 300 },
  );
});

/** Tries, for each wire between plates, which end comes at the bench (or none), and counts cases that are heated in both stages. A screen is tied with the end beside it. */
function everyAssignment(circuit: AnalysedCircuit): number {
  const { items, spots } = buildOf(circuit).work;
  const leaving = items.filter((item) => !item.inside);
  let best = Infinity;
  for (let choice = 0; choice < 3 ** leaving.length; choice++) {
    const stages = spots.map(() => new Set<string>());
    for (const item of items.filter(({ inside }) => inside)) for (const end of item.ends) stages[end.spot]!.add('bench');
    leaving.forEach((item, i) => {
      const first = item.ends.filter(({ side }) => side !== 'screen')[Math.floor(choice / 3 ** i) % 3];
      const areaOf = (spot: number): string => spots[spot]!.area.key;
      for (const end of item.ends) {
        const isFirst =
          end === first || (end.side === 'screen' && first !== undefined && areaOf(end.spot) === areaOf(first.spot));
        stages[end.spot]!.add(isFirst ? 'bench' : 'body');
      }
    });
    best = Math.min(best, spots.filter((spot) => spot.flat && stages[spot.id]!.size > 1).length);
  }
  return best;
}
