/** The claim of a finding: its sentence is made from it, and it is recognised by it. */
import { describe, expect, test } from 'vitest';
import { contentOf, identityOf, namesIn, type FindingClaim } from '../../language/claim.js';
import { rules } from '../../language/checks/index.js';
import { readCases } from './cases.js';
import { circuitOf, findingsOf, textsIn } from './harness.js';

const found = textsIn('cases', '.txt').flatMap(([, text]) => readCases(text).flatMap(({ circuit }) => findingsOf(circuit)));
const describedBy = new Map(rules.map((rule) => [rule.id, rule]));

test('each finding of a rule names its rule, and its sentence is made from nothing but the claim as plain JSON', () => {
  const judged = found.filter(({ rule }) => describedBy.has(rule));
  expect(judged.length).toBeGreaterThan(100);
  for (const { rule, claim, message } of judged) {
    const read = JSON.parse(JSON.stringify(claim)) as FindingClaim;
    expect(read).toEqual(claim);
    expect(read.rule).toBe(rule);
    expect(describedBy.get(rule)?.describe(read)).toBe(message);
  }
});

test('findings of one circuit with different sentences have different claims', () => {
  for (const [, text] of textsIn('cases', '.txt')) {
    for (const { circuit, title } of readCases(text)) {
      const sentences = new Map<string, string>();
      for (const { claim, message } of findingsOf(circuit)) {
        const known = sentences.get(contentOf(claim)) ?? message;
        expect(known, title).toBe(message);
        sentences.set(contentOf(claim), message);
      }
    }
  }
});

describe('identity', () => {
  const claim: FindingClaim = {
    rule: 'out-of-phase',
    kind: 'odd-one',
    subjects: { coils: ['neck'], others: ['bridge', 'middle'] },
    settings: [
      [
        { control: 'selector', at: [{ position: '2', name: 'both' }, { position: '4' }] },
        { control: 'phase', at: [{ position: '1' }] },
      ],
    ],
    figures: { level: { value: -20, unit: 'decibel' } },
  };
  const changed = (change: Partial<FindingClaim>): string => identityOf({ ...claim, ...change });

  test('figures and observations are no part of it, though of the content', () => {
    const other = { ...claim, figures: { level: { value: -21, unit: 'decibel' as const } }, observed: [{ kind: 'silent' }] };
    expect(identityOf(other)).toBe(identityOf(claim));
    expect(contentOf(other)).not.toBe(contentOf(claim));
  });

  test('the order of names, of controls and of positions is not, nor what a position is called', () => {
    expect(changed({ subjects: { others: ['middle', 'bridge'], coils: ['neck'] } })).toBe(identityOf(claim));
    const at = [{ position: '4' }, { position: '2', name: 'all' }];
    expect(
      changed({
        settings: [
          [
            { control: 'phase', at: [{ position: '1' }] },
            { control: 'selector', at },
          ],
        ],
      }),
    ).toBe(identityOf(claim));
  });

  test.each<[string, Partial<FindingClaim>]>([
    ['another rule', { rule: 'never-heard' }],
    ['another kind', { kind: 'each-other' }],
    ['a name less', { subjects: { coils: ['neck'], others: ['bridge'] } }],
    ['names in other roles', { subjects: { coils: ['bridge', 'middle'], others: ['neck'] } }],
    ['another position', { settings: [[{ control: 'selector', at: [{ position: '3' }] }]] }],
    ['every position', { settings: [[]] }],
    ['no position in particular', { settings: [] }],
    ['more settings', { moreSettings: 2 }],
  ])('%s is another finding', (_, change) => {
    expect(changed(change)).not.toBe(identityOf(claim));
  });

  test('names are translated for a circuit in which parts are renamed', () => {
    const as = (name: string): string => (name === 'selector' ? 'switch' : name === 'neck' ? 'front' : name);
    const settings = [
      [
        { control: 'switch', at: [{ position: '2' }, { position: '4' }] },
        { control: 'phase', at: [{ position: '1' }] },
      ],
    ];
    expect(identityOf(claim, as)).toBe(changed({ subjects: { coils: ['front'], others: ['bridge', 'middle'] }, settings }));
  });

  test('names in it are those of subjects, at any depth, and of controls', () => {
    const volumes = [{ volume: 'v', silences: ['piezo'] }];
    expect(namesIn({ subjects: { volumes }, settings: [[{ control: 'sw', at: [] }]] })).toEqual(['v', 'piezo', 'sw']);
  });
});

test('a value that moves a figure leaves the finding the same', () => {
  const text = (wires: string): string => `part a : star\npart b : pot 250k\n${wires}`;
  const wire = (to: string): string => `wire b.2 to ${to}\n`;
  const crowded = (count: number) =>
    findingsOf(
      text(`part c : pot 250k\npart d : pot 250k\n${['c.1', 'c.2', 'c.3', 'd.1', 'd.2'].slice(0, count).map(wire).join('')}`),
    ).find(({ rule }) => rule === 'crowded-lug');
  const [four, five] = [crowded(4), crowded(5)];
  expect(four?.message).toContain('holds 4 wires');
  expect(five?.message).toContain('holds 5 wires');
  expect(four && identityOf(four.claim)).toBe(five && identityOf(five.claim));
});

test('a fault of the text goes by its rule and the words in question, wherever they are', () => {
  const [one] = circuitOf('part p : potentiometr 250k\n').problems;
  const [other] = circuitOf('// moved\n\npart   p   :   potentiometr   250k\n').problems;
  expect(one?.claim).toEqual({ rule: 'unknown-name', subjects: { text: 'potentiometr' } });
  expect(other?.claim).toEqual(one?.claim);
});
