/** A part is found in the usual pattern that it is wired in, whatever its names and order, and with one wrong wire the lugs that depart are named. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { lugById, type AnalysedCircuit } from '../../language/circuit/index.js';
import { matchPart, type PartMatch } from '../../language/roles/index.js';
import { circuitOf } from '../checks/harness.js';
import { root } from '../harness/checkout.js';
import { drawPractice } from '../practice/index.js';
import { readUsual } from './usual.js';

const cases = readUsual();

/** The matches of a part, but for those of the tracks of a pot that is a switch as well. */
function matchesOf(circuit: AnalysedCircuit, name: string): readonly PartMatch[] {
  const part = circuit.parts.find((one) => one.name === name)!;
  return matchPart(circuit, part.id).filter(({ role }) => role?.unit.kind !== 'pot');
}

describe.each(cases)('$pattern: $part', ({ pattern, part, right, wrong, departs }) => {
  test('is found, and no lug departs', () => {
    const circuit = circuitOf(right);
    expect(circuit.problems).toEqual([]);
    const found = matchesOf(circuit, part);
    // A switch whose poles serve different pickups has a match for each pole.
    expect([...new Set(found.map((match) => match.pattern.name))]).toEqual([pattern]);
    expect(found.flatMap((match) => match.departs)).toEqual([]);
  });

  test('with one wrong wire the lugs that depart are named', () => {
    const circuit = circuitOf(wrong);
    const lugs = matchesOf(circuit, part).flatMap((match) => match.departs.map(({ lug }) => lugById(circuit, lug).label));
    expect(lugs.sort()).toEqual(departs);
  });
});

test('each pattern, except those of pots, has a circuit here', () => {
  const files = readdirSync(join(root, 'language', 'practice')).map((file) => file.replace('.lug', ''));
  const patterns = new Set(cases.map(({ pattern }) => pattern));
  expect([...patterns].filter((pattern) => !files.includes(pattern))).toEqual([]);
  const ofPots = /^(blend|tone|volume)/;
  expect(files.filter((file) => !patterns.has(file) && !ofPots.test(file))).toEqual([]);
});

test('in drawn correct circuits no switch and no part with two leads departs where its role is sure', () => {
  const odd: string[] = [];
  let found = 0;
  for (let seed = 1; seed <= 100; seed++) {
    const circuit = circuitOf(drawPractice(seed).text);
    for (const { family, name } of circuit.parts) {
      if (family === 'pickup' || family === 'metal') continue;
      for (const { pattern, role, departs } of matchesOf(circuit, name)) {
        if (role?.confidence === 'weak') continue;
        found++;
        const ways = departs.map(({ lug, is, usually }) => `${lugById(circuit, lug).label} ${is}, not ${usually}`);
        if (ways.length > 0) odd.push(`${seed} ${name} ${pattern.name}: ${ways.join()}`);
      }
    }
  }
  expect(odd).toEqual([]);
  expect(found).toBeGreaterThan(500);
});
