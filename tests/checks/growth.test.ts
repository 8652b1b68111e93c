/** What rules look at grows with the circuit: counted by how often they read it, and the same answers as by the plain definition. No outside source: counts and definitions. */
import { describe, expect, test } from 'vitest';
import { applyAllows, check, factsOf, rules } from '../../language/checks/index.js';
import { registry } from '../../language/checks/registry.js';
import { idlePart } from '../../language/checks/rules/idle-part.js';
import { oddVolume } from '../../language/checks/rules/odd-volume.js';
import { looseLead } from '../../language/checks/rules/loose-lead.js';
import { silencedPickup } from '../../language/checks/rules/silenced-pickup.js';
import { createUnreadParts } from '../../language/checks/facts/unread-parts.js';
import { altered, analysed, lower, type AnalysedCircuit, type Circuit, type PartId } from '../../language/circuit/index.js';
import { parseText } from '../../language/grammar/index.js';
import { createWork } from '../../language/work.js';
import type { SourceRange } from '../../language/source.js';
import { generateCircuit } from '../bench/circuits.js';
import { growing } from '../bench/growing-texts.js';

const circuitOf = (text: string): AnalysedCircuit => lower(parseText('test:/growth.lug', text));
const grown = (name: string, size: number): AnalysedCircuit => circuitOf(growing.find((kind) => kind.name === name)!.text(size));

/** The circuit, with a count of how often this list of it is asked for. */
function counted(
  circuit: Circuit,
  list: 'elements' | 'allows',
): { readonly circuit: AnalysedCircuit; readonly reads: () => number } {
  let reads = 0;
  const watched = analysed(circuit);
  Object.defineProperty(watched, list, { get: () => (reads++, circuit[list]) });
  return { circuit: watched, reads: () => reads };
}

test('pots that nothing is soldered to are not turned to find a sound', () => {
  const spent = (pots: number): number => {
    const loose = Array.from({ length: pots }, (_, i) => `part t${i} : pot 250k\n`).join('');
    const text = `part p : single-coil 6k\npart volume : pot 250k\npart output : jack\nwire volume.2 to output.tip\nwire volume.1 to output.sleeve\n`;
    const work = createWork(Infinity);
    const { signal, groups } = factsOf(analysed(circuitOf(text + loose), { work }));
    expect(signal.soundsWhenTurned(groups()[0]!.setting)).toBe(false);
    return work.spent;
  };
  expect(spent(80)).toBeLessThan(6 * spent(20));
});

test('what a fault takes away is looked up: each place is read a few times, not once for each fault', () => {
  for (const name of ['unknown types', 'misspelt part names', 'wrong values', 'syntax errors on every line']) {
    const circuit = grown(name, 100);
    let reads = 0;
    const names = circuit.names.map((use) => ({
      ...use,
      get range() {
        reads++;
        return use.range;
      },
    }));
    const loss = createUnreadParts(altered(circuit, { names }));
    const ranges = lostRanges(circuit);
    expect(loss.any, name).toBe(ranges.length > 0);
    for (const { id } of circuit.parts) expect(loss.touches(id), `${name} ${id}`).toBe(plainlyTouched(circuit, ranges, id));
    expect(reads, name).toBeLessThanOrEqual(4 * names.length);
  }
});

/** The faults that take a joint or a part away, outside of what neither wires nor declares. */
function lostRanges(circuit: Circuit): readonly SourceRange[] {
  const takesAway = ['syntax', 'unknown-name', 'duplicate-name', 'use', 'type', 'form'];
  return circuit.problems
    .filter(({ severity, rule }) => severity === 'error' && takesAway.includes(rule))
    .map(({ range }) => range)
    .filter((range) => !(circuit.aside ?? []).some((statement) => haveLineInCommon(statement, range)));
}

/** A fault touches the parts that are named, joined or declared on a line of it; one with none of them touches all. */
function plainlyTouched(circuit: Circuit, lost: readonly SourceRange[], part: PartId): boolean {
  return lost.some((range) => {
    const parts = [
      ...circuit.names.filter((use) => haveLineInCommon(use.range, range)).map((use) => use.part),
      ...circuit.joints
        .filter(({ statementRange }) => haveLineInCommon(statementRange, range))
        .flatMap(({ a, b }) => [circuit.lugs[a]!.part, circuit.lugs[b]!.part]),
      ...circuit.parts.filter((one) => haveLineInCommon(one.range, range)).map(({ id }) => id),
    ].filter((id) => id !== undefined);
    return parts.length === 0 || parts.includes(part);
  });
}

function haveLineInCommon(a: SourceRange, b: SourceRange): boolean {
  return a.uri === b.uri && a.start.line <= b.end.line && b.start.line <= a.end.line;
}

test('a pot that can lift no short is not turned to find a sound', () => {
  // A volume backwards shorts the output by itself at 10, so that with a second one no pot lifts the short alone.
  const spent = (pots: number): number => {
    const backwards = Array.from(
      { length: pots },
      (_, i) =>
        `part p${i} : single-coil 6k\npart t${i} : pot 250k audio\nwire p${i}.hot to t${i}.1\nwire p${i}.ground to saddle\nwire t${i}.2 to output.tip\nwire t${i}.3 to saddle\n`,
    ).join('');
    const work = createWork(Infinity);
    const text = `part saddle : bridge-ground\npart output : jack\nwire saddle to output.sleeve\n${backwards}`;
    const { signal } = factsOf(analysed(circuitOf(text), { work }));
    expect(signal.neverHeard().size).toBe(pots);
    return work.spent;
  };
  expect(spent(80)).toBeLessThan(3 * spent(40));
});

describe('what a rule reads of the circuit grows with it, not with its square', () => {
  const added = (line: (n: number) => string) => (size: number) =>
    `${growing.find((kind) => kind.name === 'comments')!.text(0)}${Array.from({ length: size }, (_, i) => `${line(i + 1)}\n`).join('')}`;
  const named = (name: string) => growing.find((kind) => kind.name === name)!.text;
  const hot = (n: number): string => `part p${n} : single-coil 6k 2.5H 110pF\nwire p${n}.hot to volume.3\n`;
  const cases: readonly (readonly [string, (size: number) => string, 'elements' | 'parts' | 'joints', string, number])[] = [
    [
      'never-heard',
      added((n) => `part p${n} : single-coil 6k\nwire p${n}.hot to volume.case\nwire p${n}.ground to volume.case`),
      'elements',
      'kind',
      60,
    ],
    [
      'silent-coil',
      added(
        (n) =>
          `part p${n} : humbucker-4 8k\nwire p${n}.north-start to volume.3\nwire p${n}.north-finish to p${n}.south-finish\nwire p${n}.south-start to volume.case\nwire p${n}.shield to volume.case`,
      ),
      'elements',
      'kind',
      0,
    ],
    ['idle-control', named('pots across the signal'), 'parts', 'lugs', 60],
    ['ground-lead', named('pickups in series'), 'elements', 'output', 60],
    [
      'floating-metal',
      added((n) => `part t${n} : pot 1M\nwire t${n}.3 to volume.3\nwire t${n}.1 to volume.case`),
      'elements',
      'kind',
      60,
    ],
    [
      'screen-return',
      (size) => added((n) => `${hot(n)}wire p${n}.ground to volume.case shielded screen to volume.case`)(size),
      'joints',
      'ownLead',
      0,
    ],
    [
      'repeated-joint',
      added((n) => `part r${n} : resistor 1M\nwire r${n}.a to volume.3\nwire r${n}.b to volume.case\nwire r${n}.a to volume.3`),
      'joints',
      'id',
      60,
    ],
  ];
  test.each(cases)('%s', (id, text, list, property, least) => {
    const rule = registry.find((one) => one.id === id)!;
    const [some, more] = [60, 120].map((size) => {
      const circuit = circuitOf(text(size));
      let reads = 0;
      const items = circuit[list].map((item) => {
        const value = (item as unknown as Readonly<Record<string, unknown>>)[property];
        return Object.defineProperty({ ...item }, property, { get: () => (reads++, value), enumerable: true });
      });
      const facts = factsOf(altered(circuit, { [list]: items }));
      // What other rules need as well is worked out before.
      facts.effects();
      facts.signal.neverHeard();
      facts.isBroken();
      reads = 0;
      const found = rule.check(facts);
      expect(found.length + (found[0]?.related?.length ?? 0)).toBeGreaterThanOrEqual(least);
      return reads;
    }) as [number, number];
    expect(some).toBeGreaterThan(0);
    expect(more).toBeLessThan(2.6 * some);
  });
});

describe('a rule asks once for what holds for the whole circuit', () => {
  test('silenced-pickup: the settings, not for each volume', () => {
    const swapped = generateCircuit(60).replaceAll(
      /\b(volume\d+)\.([23])\b/g,
      (_, name: string, lug: string) => `${name}.${lug === '2' ? '3' : '2'}`,
    );
    const facts = factsOf(circuitOf(swapped));
    let asked = 0;
    const found = silencedPickup.check({ ...facts, settings: () => (asked++, facts.settings()) });
    expect(found).toHaveLength(1);
    expect(found[0]!.related!.length).toBeGreaterThan(5);
    expect(asked).toBe(1);
  });

  test('idle-part: the lugs of a net, not for each part on it', () => {
    const asked = [100, 200].map((size) => {
      const facts = factsOf(grown('resistors between two nets', size));
      let members = 0;
      const joined = { ...facts.joined, members: (klass: number) => (members++, facts.joined.members(klass)) };
      expect(idlePart.check({ ...facts, joined })).toEqual([]);
      return members;
    });
    expect(asked[1]).toBe(asked[0]);
  });

  test('loose-lead: the elements, not for each assembly', () => {
    const asked = [100, 200].map((size) => {
      const { circuit, reads } = counted(grown('assemblies of assemblies', size), 'elements');
      expect(looseLead.check(factsOf(circuit))).toEqual([]);
      return reads();
    });
    // Each part that is no assembly asks once for its own element.
    expect(asked[1]! - asked[0]!).toBeLessThanOrEqual(120);
  });

  test('allow lines: each is read a few times, not for each finding', () => {
    const circuit = grown('allow lines that meet a finding', 100);
    let reads = 0;
    const allows = circuit.allows.map((allow) => ({
      ...allow,
      get rule() {
        reads++;
        return allow.rule;
      },
    }));
    const found = check(circuit, registry);
    expect(applyAllows(altered(circuit, { allows }), found, rules)).toEqual(applyAllows(circuit, found, rules));
    expect(found.length).toBeGreaterThanOrEqual(100);
    expect(reads).toBeLessThan(10 * allows.length);
  });
});

test('pots are judged one at a time, so that a server can answer between two', () => {
  const circuit = circuitOf(generateCircuit(100));
  const steps = oddVolume.checkSteps(factsOf(circuit));
  let count = 0;
  while (steps.next().done !== true) count++;
  expect(count).toBeGreaterThanOrEqual(circuit.shafts.length);
});
