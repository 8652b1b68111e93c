/** The page of each rule: its sections, and its examples run as they stand. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { rules } from '../../language/checks/index.js';
import { applied, findingsOf, line } from './harness.js';

const root = new URL('../../', import.meta.url);
const sections = ['What it finds', 'Why it matters at the bench', 'Example', 'Repaired', 'When to set it aside'];
const words = { error: 'Error', warning: 'Warning', info: 'Information', hint: 'Hint' };

test('no two rules bear one name', () => {
  expect(new Set(rules.map(({ id }) => id)).size).toBe(rules.length);
});

test('each file of the folder belongs to a rule', () => {
  const names = readdirSync(new URL('language/checks/rules/', root)).map((name) => name.replace(/\.(ts|md)$/, ''));
  expect([...new Set(names)].sort()).toEqual(rules.map(({ id }) => id).sort());
});

describe.each(rules)('$id', ({ id, page, severity, summary }) => {
  const place = new URL(page, root);
  const text = existsSync(place) ? readFileSync(place, 'utf8') : '';
  const [example = '', repaired = ''] = [...text.matchAll(/```lug\n([^]*?)```/g)].map((match) => match[1]!);

  test('has a page of the usual shape', () => {
    expect(text.startsWith(`# ${id}\n\n${words[severity]}: `)).toBe(true);
    expect([...text.matchAll(/^## (.*)$/gm)].map((match) => match[1])).toEqual(sections);
    expect(summary).toMatch(/^[^A-Z].*[^.]$/);
  });

  test('its example brings this rule and no other', () => {
    const found = findingsOf(example);
    expect(
      found.map((finding) => `${finding.severity} ${finding.rule}`),
      found.map(line).join('\n'),
    ).toEqual([`${severity} ${id}`]);
  });

  test('its repaired example is clean', () => {
    expect(findingsOf(repaired).map(line)).toEqual([]);
  });

  test('its first fix, where there is one, corrects the example', () => {
    const [fix] = findingsOf(example)[0]?.fixes ?? [];
    if (fix !== undefined)
      expect(
        findingsOf(applied(example, fix.edits))
          .filter(({ rule }) => rule === id)
          .map(line),
      ).toEqual([]);
  });

  test('`allow` sets it aside', () => {
    const allowed = `${example}\nallow ${id} "known, and meant"\n`;
    // An allow that meets nothing is what the rule of that name tells of, so it cannot vanish so.
    if (id !== 'idle-allow') expect(findingsOf(allowed).map(line)).toEqual([]);
  });
});
