/** Findings under their cause: the cause is at the place at fault, and what follows from it is gone once its fix is made. */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { createCheckedTexts, followersOf, followsFromText, withCauses } from '../../language/causes.js';
import { identityOf } from '../../language/claim.js';
import { findings } from '../../language/findings.js';
import { canBeRewired, linesOfNow, repairs, usualWork } from '../../language/intent/index.js';
import { createProject } from '../../language/project.js';
import type { Finding } from '../../language/source.js';
import { finished } from '../../language/steps.js';
import { createWork } from '../../language/work.js';
import { circuitOf, example, uri, withFix } from './harness.js';

function explained(text: string, work = createWork(usualWork)) {
  const project = createProject({ read: (asked) => (asked === uri ? text : undefined) });
  const circuit = project.circuit(uri)!;
  const found = findings(circuit);
  const spelt = finished(followsFromText(circuit, found, createCheckedTexts(project, uri), work));
  const { findings: all, follows } = withCauses(found, canBeRewired(circuit) ? repairs(circuit) : [], spelt);
  return { all, follows, followers: followersOf(all, follows), causes: all.filter((finding) => !follows.has(finding)) };
}

/** Rules of the causes, each with how many findings follow from it. */
function causesIn(text: string): readonly string[] {
  const { causes, followers } = explained(text);
  return causes
    .filter(({ severity }) => severity === 'error' || severity === 'warning')
    .map((cause) => `${cause.rule} ${followers.get(cause)?.length ?? 0}`);
}

/** Each finding that follows from another, with the text in which the first fix of its cause is made. */
function expectGone(text: string): void {
  for (const [cause, following] of explained(text).followers) {
    const after = findings(circuitOf(withFix(text, cause.fixes[0]!)));
    const still = new Set(after.map(claimOf));
    for (const finding of following)
      expect(still, `${finding.message} follows from ${cause.message}`).not.toContain(claimOf(finding));
  }
}

/** By what a finding is known in a text of the same lines or one more. */
function claimOf({ claim, message }: Finding): string {
  return claim.rule === 'expectation' ? `${identityOf(claim)} ${message.split(', but ')[0]!}` : identityOf(claim);
}

/** The circuit with an expectation for everything that it does, rotations included, as `lugwork expect --turns` writes them. */
function stated(text: string): string {
  const bare = text.replace(/^expect.*\n/gm, '');
  return `${bare}\n${linesOfNow(circuitOf(bare), { turns: true }).join('\n')}\n`;
}

/** Everything on lugs 1 and 3 of a pot exchanged, as when it is wired from the wrong side. */
function mirrored(text: string, pot: string): string {
  const names = new RegExp(`\\b${pot}\\.([13])\\b`, 'g');
  return text.replace(names, (_, lug: string) => `${pot}.${lug === '1' ? '3' : '1'}`);
}

describe.each([
  ['two-single-coils-lever-3', 'volume'],
  ['three-single-coils-lever-5', 'volume'],
  ['two-humbuckers-toggle-3', 'neck-volume'],
])('%s with the ends of %s exchanged and everything stated', (name, pot) => {
  const text = mirrored(stated(example(name)), pot);
  const { causes, followers } = explained(text);

  test('has one cause, which names the pot', () => {
    const [cause, ...others] = causes.filter(({ severity }) => severity === 'error' || severity === 'warning');
    expect(others).toEqual([]);
    expect(cause).toMatchObject({ rule: 'backwards-control', claim: { subjects: { control: pot } } });
    expect(followers.get(cause!)!.length).toBeGreaterThan(40);
  });

  test('and without it nothing that follows from it', () => expectGone(text));
});

describe('a ground wire cut between two volumes', () => {
  const whole = example('two-humbuckers-toggle-3').replace(/ shielded screen to \S+/g, '');
  const text = whole.replace(
    /^wire neck-tone\.case to neck-volume\.case to (.*)$/m,
    'wire neck-tone.case to neck-volume.case bare 20awg\nwire $1',
  );

  test.each([
    ['as stated', text],
    ['with nothing stated', text.replace(/^expect.*\n/gm, '')],
  ])('is reported at the island that has no way to ground, %s', (_, cut) => {
    expect(cut).not.toBe(whole);
    const { causes, followers, all } = explained(cut);
    const [cause, ...others] = causes.filter(({ severity }) => severity === 'error' || severity === 'warning');
    expect(others).toEqual([]);
    expect(cause!.rule).toBe('floating-metal');
    expect(cause!.message).toMatch(/^neck-volume\.case and what is connected to it \(neck\.ground, .*\) have no way to ground/);
    const neck = all.find(({ rule }) => rule === 'never-heard');
    expect(followers.get(cause!)).toContain(neck);
    expectGone(cut);
  });
});

describe('a misspelt word', () => {
  const right = example('two-single-coils-lever-3');
  const text = right.replace('wire neck.ground ', 'wire nekc.ground ');

  test('is the cause of what its statement leaves open', () => {
    expect(causesIn(text)).toEqual(['unknown-name 1']);
    expectGone(text);
  });

  test('is not the cause of what another mistake leaves open', () => {
    const both = text.replace(/^wire bridge\.hot .*\n/m, '');
    const { follows, causes } = explained(both);
    expect([...follows].map(([{ message }, cause]) => [message.split(' ')[0], cause.rule])).toEqual([
      ['neck.ground', 'unknown-name'],
    ]);
    expect(causes.map(({ rule, message }) => `${rule} ${message.split(' ')[0]!}`)).toContain('loose-lead bridge.hot');
  });

  test('of an allow is the cause of what it does not set aside', () => {
    const crowded = right.replace(/^expect/m, 'part spare : capacitor 22nF\nallow unwired-prat on spare "comes later"\nexpect');
    expect(causesIn(crowded)).toEqual(['idle-allow 1']);
    expectGone(crowded);
  });

  test('stays one where a wire is missing as well: no wire corrects it', () => {
    const { all } = explained(right.replace(/^wire saddle.*$/m, 'allow crowded-lg on volume "short leads"'));
    const misspelt = all.find(({ rule }) => rule === 'idle-allow');
    expect(misspelt!.fixes.map(({ title }) => title)).toEqual(['write crowded-lug']);
  });

  test('with no work left nothing is said to follow from it', () => {
    const work = createWork(10);
    expect(explained(text, work).follows.size).toBe(0);
    expect(work.spent).toBeLessThanOrEqual(10);
  });
});

describe('a statement that can’t be read, with no fix,', () => {
  const right = example('two-single-coils-lever-3');
  const followsIn = (line: RegExp, wrong: string): readonly string[] => {
    const { all, follows } = explained(right.replace(line, wrong));
    return all.map((finding) => `${follows.has(finding) ? '> ' : ''}${finding.rule} ${finding.subjects[0] ?? ''}`.trim());
  };

  test.each([
    [
      'names a part that does not exist',
      /^wire neck\.ground +to/m,
      'wire q7.ground to',
      ['> loose-lead neck.ground', 'unknown-name'],
    ],
    ['has a bracket too many', /^wire neck\.hot +to/m, 'wire ( neck.hot to', ['> loose-lead neck.hot', 'syntax', 'unknown-name']],
    ['leaves the jack open', /^wire volume\.2 +to output/m, 'wire volume.2 to q7', ['> no-output output.tip', 'unknown-name']],
  ])('%s: what it may wire follows from it', (_, line, wrong, rules) => {
    expect(followsIn(line, wrong)).toEqual(rules);
  });

  test('declares a part: that nobody knows its name follows from it', () => {
    const { causes, followers } = explained(right.replace(/^part neck +:/m, 'zzzzz neck :'));
    expect(causes.map(({ rule }) => rule)).toEqual(['syntax']);
    const following = followers.get(causes[0]!)!;
    expect(following.length).toBeGreaterThan(2);
    for (const { message } of following) expect(message).toBe('there is no part neck');
  });

  test('is not the cause where two leads may be meant', () => {
    const both = right.replace(/^wire bridge\.hot .*\n/m, '').replace(/^wire neck\.hot +to/m, 'wire q7.hot to');
    expect(explained(both).follows.size).toBe(0);
  });

  test('is not the cause of another lead that is loose', () => {
    const both = right.replace(/^wire bridge\.ground .*\n/m, '').replace(/^wire neck\.hot +to/m, 'wire q7.hot to');
    const { follows, causes } = explained(both);
    expect([...follows.keys()].map(({ subjects: [lead] }) => lead)).toEqual(['neck.hot']);
    expect(causes.map(({ subjects: [lead] }) => lead)).toContain('bridge.ground');
  });

  test('that states what to expect takes nothing away', () => {
    const both = right.replace(/^wire neck\.hot .*\n/m, '').replace(/^expect volume 0/m, 'expect q7.hot 0');
    expect(explained(both).follows.size).toBe(0);
  });
});

test('of many misspelt words the first twenty are corrected to see what follows', () => {
  const wires = Array.from({ length: 25 }, (_, n) => `wire volme.${1 + (n % 3)} to volume.case\n`).join('');
  const text = `part volume : pot\n${wires}`;
  const found = findings(circuitOf(text));
  expect(found.filter(({ rule }) => rule === 'unknown-name')).toHaveLength(25);
  let corrected = 0;
  const texts = {
    text: () => text,
    corrected: () => {
      corrected++;
      return undefined;
    },
  };
  finished(followsFromText(circuitOf(text), found, texts, createWork(usualWork)));
  expect(corrected).toBe(20);
});

test('two mistakes are two causes', () => {
  const text = mirrored(stated(example('two-single-coils-lever-3')), 'volume').replace(/^wire saddle .*\n/m, '');
  const causes = causesIn(text);
  expect(causes.map((cause) => cause.split(' ')[0]).sort()).toEqual(['backwards-control', 'floating-metal']);
  expect(causes).toContain('floating-metal 0');
  expectGone(text);
});

const folder = new URL('../../examples/faulty/', import.meta.url);
const faulty = readdirSync(folder).map((file) => `faulty/${file.replace('.lug', '')}`);

test.each(faulty)('in %s every finding that follows from another is gone with its cause, and no cause follows', (name) => {
  const { all, follows } = explained(example(name));
  for (const cause of follows.values()) {
    expect(all).toContain(cause);
    expect(follows.has(cause)).toBe(false);
  }
  expectGone(example(name));
});
