/** The rules see inside assemblies: parts of a circuit that are put into one, with the wires between them, bring the findings that they brought before. */
import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { identityOf, type FindingClaim, type SubjectNames, type Subjects } from '../../language/claim.js';
import { findings } from '../../language/findings.js';
import type { Finding } from '../../language/source.js';
import { generateCircuit } from '../bench/circuits.js';
import { readCases } from './cases.js';
import { circuitOf, textsIn } from './harness.js';
import { wrap, wrappable, type Way, type Wrapped } from './wrapping.js';

const examples = ['../../examples/', '../../examples/faulty/'].flatMap((folder) => {
  const place = new URL(folder, import.meta.url);
  const names = readdirSync(place).filter((name) => name.endsWith('.lug'));
  return names.sort().map((name) => readFileSync(new URL(name, place), 'utf8'));
});
const cases = textsIn('cases', '.txt').flatMap(([, text]) => readCases(text).map(({ circuit }) => circuit));
const correct = textsIn('correct', '.lug').map(([, text]) => text);
const generated = [10, 17, 30].map((parts) => generateCircuit(parts, parts));
/** Texts without a fault that have a part which an assembly can hold. */
const whole = [...examples, ...cases, ...correct, ...generated].filter(
  (text) => circuitOf(text).problems.length === 0 && wrappable(text).length > 0,
);

/** Rules that say something else of an assembly than of its parts, each with the reason. */
const otherwise: Readonly<Record<string, string>> = {
  'tight-fit': 'the distance between two lugs is that on the bench, where an assembly is one body with separate lugs',
  'earth-colour': 'a lead that is wrapped is soldered to a pad inside, and a solder joint has no colour',
  'outer-foil': 'it names the joint that is made on the bench, and an assembly comes with its joints made',
};

/** What a claim says once an assembly's lug counts as the lug inside that it is soldered to. */
function flatClaim({ rule, subjects = {}, ...claim }: FindingClaim, { flatName }: Wrapped, way: Way): string {
  // A lead that leaves the assembly by one of its lugs is a lead of the assembly.
  const leads = Object.fromEntries(Object.entries(subjects).filter(([role]) => role !== 'part' && role !== 'on'));
  // Where a lead of an assembly's part ends is on the bench its own lug.
  const places = Object.fromEntries(Object.entries(subjects).filter(([role]) => role !== 'lug'));
  const named = rule === 'loose-lead' && way === 'pads' ? leads : rule === 'unlike-twin' ? places : subjects;
  return identityOf({ rule, ...claim, subjects: unique(named, flatName) as Subjects }, flatName);
}

/** The names of a list once each: the lug of an assembly and the lug inside it are one in the flat circuit. */
function unique(names: SubjectNames, flatName: (name: string) => string): SubjectNames {
  if (typeof names === 'string') return flatName(names);
  if (!Array.isArray(names))
    return Object.fromEntries(Object.entries(names as Subjects).map(([role, some]) => [role, unique(some, flatName)]));
  const all = (names as readonly SubjectNames[]).map((some) => unique(some, flatName));
  return all.filter((some, index) => all.findIndex((other) => JSON.stringify(other) === JSON.stringify(some)) === index);
}

function said(found: readonly Finding[], wrapped: Wrapped, way: Way): readonly string[] {
  const compared = found.filter(({ rule, claim }) => {
    if (otherwise[rule] !== undefined) return false;
    // Wires to a lug from inside and from outside are on two lugs once the assembly has one for those from outside.
    return rule !== 'crowded-lug' || way !== 'pads' || !wrapped.border.has(wrapped.flatName(String(claim.subjects?.lug)));
  });
  return compared.map(({ severity, claim }) => `${severity} ${flatClaim(claim, wrapped, way)}`).sort();
}

const assemblies = fc
  .constantFrom(...whole)
  .chain((text) =>
    fc.tuple(
      fc.constant(text),
      fc.oneof(fc.constant(wrappable(text)), fc.subarray([...wrappable(text)], { minLength: 1 })),
      fc.constantFrom<Way>('pads', 'straight'),
    ),
  );

test('an assembly is judged as its parts are', () => {
  let [tried, found] = [0, 0];
  const rules = new Set<string>();
  fc.assert(
    fc.property(assemblies, ([text, chosen, way]) => {
      const wrapped = wrap(text, chosen, way);
      const circuit = circuitOf(wrapped.text);
      // `left` and `right` of a pot need the instrument’s word on how the diagram sees it, which a type has not.
      if (circuit.problems.length > 0 && /\bleft\b|\bright\b/.test(text)) return;
      expect(circuit.problems).toEqual([]);
      const flat = findings(circuitOf(text));
      tried++;
      found += flat.length;
      for (const { rule } of flat) rules.add(rule);
      expect(said(findings(circuit), wrapped, way), wrapped.text).toEqual(said(flat, wrapped, way));
    }),
    { seed: 20251129, numRuns: 450 },
  );
  expect(tried).toBeGreaterThan(420);
  expect(found).toBeGreaterThan(200);
  expect(rules.size).toBeGreaterThan(30);
});
