/** Findings looked up by rule, place and subject, so that two long lists are compared without a look at each pair. */
import type { Finding } from '../../source.js';
import type { Work } from '../../work.js';

export interface Known {
  readonly all: readonly Finding[];
  /** Those of one rule. */
  of(rule: string): readonly Finding[];
  /** True where one of them is about the same claim, or has a subject in common. */
  isStill(finding: Finding): boolean;
  /** True where none of them is about as much: a finding about fewer things than one that was there is what is left of that one. */
  isFresh(finding: Finding): boolean;
}

/** `work` pays for what is put in and looked up. */
export function createKnown(all: readonly Finding[], work: Work | undefined): Known {
  const byRule = new Map<string, Finding[]>();
  const byKey = new Map<string, Finding[]>();
  const put = (map: Map<string, Finding[]>, key: string, finding: Finding): void => {
    const there = map.get(key);
    if (there === undefined) map.set(key, [finding]);
    else if (there.at(-1) !== finding) there.push(finding);
  };
  for (const finding of all) {
    const keys = keysOf(finding);
    work?.charge('match', 1 + keys.length);
    put(byRule, finding.rule, finding);
    for (const key of keys) put(byKey, key, finding);
  }
  return {
    all,
    of: (rule) => byRule.get(rule) ?? [],
    isStill(finding) {
      const keys = keysOf(finding);
      work?.charge('match', 1 + keys.length);
      return keys.some((key) => byKey.has(key));
    },
    isFresh(finding) {
      const keys = keysOf(finding);
      work?.charge('match', 1 + keys.length);
      if (keys.length === 0) return !byRule.has(finding.rule);
      const fewest = keys.map((key) => byKey.get(key) ?? []).reduce((a, b) => (b.length < a.length ? b : a));
      if (isAboutClaim(finding)) return fewest.length === 0;
      work?.charge('match', fewest.length * finding.subjects.length);
      return !fewest.some(({ subjects }) => finding.subjects.every((subject) => subjects.includes(subject)));
    },
  };
}

export function isAboutClaim({ rule }: Finding): boolean {
  return rule === 'expectation';
}

/** A claim is known by its place, anything else by each of its subjects. */
function keysOf(finding: Finding): readonly string[] {
  const { rule, subjects, range } = finding;
  if (isAboutClaim(finding)) return [`${rule} ${range.start.line}:${range.start.character} ${range.uri}`];
  return subjects.map((subject) => `${rule} ${subject}`);
}
