/** The caps of a list of findings: how many there are at most, which are kept, and that none is listed without its cause. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cap, capFindings, caps, causesOf, omittedSentence, rankOf, type Caps } from '../../language/cap-findings.js';
import type { Finding, Severity } from '../../language/source.js';

const severities: readonly Severity[] = ['error', 'warning', 'info', 'hint'];
/** Small, so that lists made by chance exceed them. */
const small: Caps = { perRule: 3, perFile: 8 };

interface Entry {
  readonly id: number;
  readonly rule: string;
  readonly severity: Severity;
}

const entries: fc.Arbitrary<Entry[]> = fc
  .array(fc.record({ rule: fc.constantFrom('a', 'b', 'c', 'd', 'e'), severity: fc.constantFrom(...severities) }), {
    maxLength: 40,
  })
  .map((list) => list.map((entry, id) => ({ ...entry, id })));

/** Each entry with up to three others as its causes, circles among them. */
const linked = entries.chain((list) =>
  fc.record({
    list: fc.constant(list),
    causes:
      list.length === 0
        ? fc.constant(new Map<number, number[]>())
        : fc
            .array(fc.tuple(fc.nat(list.length - 1), fc.array(fc.nat(list.length - 1), { minLength: 1, maxLength: 3 })))
            .map((pairs) => new Map(pairs)),
  }),
);

describe('for any list and any causes', () => {
  test('never more than the caps, of a rule or in all', () => {
    fc.assert(
      fc.property(linked, ({ list, causes }) => {
        const { shown } = cap(list, { causes, limits: small, rankOf });
        expect(shown.length).toBeLessThanOrEqual(small.perFile);
        for (const rule of 'abcde')
          expect(shown.filter((entry) => entry.rule === rule).length).toBeLessThanOrEqual(small.perRule);
      }),
    );
  });

  test('what is listed and what is left out is everything, each in its order', () => {
    fc.assert(
      fc.property(linked, ({ list, causes }) => {
        const { shown, omitted } = cap(list, { causes, limits: small, rankOf });
        expect([...shown, ...omitted].sort((a, b) => a.id - b.id)).toEqual(list);
        for (const part of [shown, omitted]) expect(part).toEqual([...part].sort((a, b) => a.id - b.id));
      }),
    );
  });

  test('every cause of what is listed is listed', () => {
    fc.assert(
      fc.property(linked, ({ list, causes }) => {
        const { shown } = cap(list, { causes, limits: small, rankOf });
        const ids = new Set(shown.map(({ id }) => id));
        for (const { id } of shown) for (const cause of causes.get(id) ?? []) expect(ids).toContain(cause);
      }),
    );
  });

  test('the same list gives the same', () => {
    fc.assert(
      fc.property(linked, ({ list, causes }) => {
        const once = cap(list, { causes, limits: small, rankOf });
        expect(cap([...list], { causes: new Map(causes), limits: small, rankOf })).toEqual(once);
      }),
    );
  });

  test('what is left out has no room: its rule is full, or the file is', () => {
    fc.assert(
      fc.property(entries, (list) => {
        const { shown, omitted } = cap(list, { limits: small, rankOf });
        for (const { rule } of omitted) {
          const isRuleFull = shown.filter((entry) => entry.rule === rule).length === small.perRule;
          expect(isRuleFull || shown.length === small.perFile).toBe(true);
        }
      }),
    );
  });

  test('an error is left out for no warning, a warning for no note', () => {
    fc.assert(
      fc.property(entries, (list) => {
        const { shown, omitted } = cap(list, { limits: small, rankOf });
        for (const out of omitted) {
          const ofRule = shown.filter(({ rule }) => rule === out.rule);
          const rivals = ofRule.length === small.perRule ? ofRule : shown;
          for (const { severity } of rivals)
            expect(severities.indexOf(severity)).toBeLessThanOrEqual(severities.indexOf(out.severity));
        }
      }),
    );
  });
});

function finding(line: number, more: Partial<Finding> = {}): Finding {
  const range = { uri: 'file:///no-3.lug', start: { line, character: 0 }, end: { line, character: 4 } };
  const { rule = 'crowded-lug' } = more;
  return { rule, severity: 'warning', claim: { rule }, message: '', range, related: [], fixes: [], subjects: [], ...more };
}

describe('findings of a circuit', () => {
  test('at most 200 of a rule and 1,000 of a file', () => {
    const list = Array.from({ length: 6000 }, (_, line) => finding(line, { rule: `rule-${line % 20}` }));
    const { shown, omitted } = capFindings(list);
    expect(caps).toEqual({ perRule: 200, perFile: 1000 });
    expect([shown.length, omitted.length]).toEqual([1000, 5000]);
    expect(capFindings(list.map((one) => ({ ...one, rule: 'same' }))).shown).toHaveLength(200);
  });

  test('a list within the caps stays as it is', () => {
    const list = Array.from({ length: 200 }, (_, line) => finding(line));
    expect(capFindings(list)).toEqual({ shown: list, omitted: [] });
  });

  test('a finding at the place that a listed one refers to is kept, whatever its severity', () => {
    const cause = finding(5000, { rule: 'note', severity: 'hint', message: 'the cause' });
    const first = finding(0, { severity: 'error', related: [{ message: 'see there', range: cause.range }] });
    const others = Array.from({ length: 3000 }, (_, line) => finding(1 + line, { rule: `rule-${line % 30}`, severity: 'error' }));
    const { shown } = capFindings([first, ...others, cause]);
    expect(shown).toHaveLength(1000);
    expect(shown.at(-1)).toBe(cause);
  });

  test('a loose lead is kept with the claims that follow from it', () => {
    const cause = finding(5000, { rule: 'loose-lead', severity: 'warning' });
    const claims = Array.from({ length: 300 }, (_, line) => finding(line, { rule: 'expectation', severity: 'error' }));
    const follows = new Map(claims.map((claim) => [claim, cause]));
    const others = Array.from({ length: 3000 }, (_, line) =>
      finding(300 + line, { rule: `rule-${line % 30}`, severity: 'error' }),
    );
    const { shown, omitted } = capFindings([...claims, ...others, cause], { follows });
    expect(shown).toHaveLength(1000);
    expect(shown.filter(({ rule }) => rule === 'expectation')).toHaveLength(200);
    expect(shown).toContain(cause);
    expect(omitted).toHaveLength(2301);
    // Without the link a warning would not stand before three thousand errors.
    expect(causesOf([...claims, ...others, cause], follows).get(0)).toEqual([3300]);
  });

  test('of thousands at one place a reference keeps one, the gravest', () => {
    const place = finding(7).range;
    const crowd = Array.from({ length: 3000 }, (_, index) =>
      finding(7, { rule: 'crowd', severity: index === 2500 ? 'error' : 'info', message: String(index) }),
    );
    const referring = finding(1, { severity: 'warning', related: [{ message: 'there', range: place }] });
    const { shown } = capFindings([referring, ...crowd]);
    expect(shown).toContain(referring);
    expect(shown.map(({ message }) => message)).toContain('2500');
  });

  test('the sentence counts by severity, and the numbers add up', () => {
    fc.assert(
      fc.property(entries, (list) => {
        const said = omittedSentence(list, 'there');
        const [all, ...parts] = [...said.matchAll(/\d+/g)].map(([number]) => Number(number));
        expect(all).toBe(list.length);
        expect(parts.reduce((sum, part) => sum + part, 0)).toBe(list.length);
      }),
    );
    expect(omittedSentence([{ rule: 'a', severity: 'error' }], '--all lists them')).toBe(
      '1 more finding is not listed: 1 error; --all lists them',
    );
  });
});
