/** Findings that are new and gone; expectations have a list of their own. */
import { expectation, openQuestion } from '../../checks/index.js';
import { contentOf, identityOf } from '../../claim.js';
import type { Finding } from '../../source.js';
import type { FindingChange } from '../change.js';
import type { Match } from '../match/match.js';

/**
 * A finding is recognised by its claim, whatever its place and wording. One with the same identity but other figures, or else of the same rule
 * about the same things, is one that changed. One that was set aside in only one of the circuits is neither new nor gone.
 */
export function compareFindings(
  before: readonly Finding[],
  after: readonly Finding[],
  aside: { readonly before: readonly Finding[]; readonly after: readonly Finding[] },
  { renamed }: Match,
): readonly FindingChange[] {
  const pairs = [contentKey, identityKey, subjectKey].map((keyOf) => pairing(keyOf, renamed));
  let [old, open] = [judged(before), judged(after)];
  const earlier = new Map<Finding, Finding>();
  const unchanged = new Set<Finding>();
  for (const [step, pair] of pairs.entries()) {
    const found = pair(old, open);
    for (const [now, one] of found) {
      if (step === 0) unchanged.add(now);
      else earlier.set(now, one);
    }
    const taken = new Set(found.values());
    old = old.filter((finding) => !taken.has(finding));
    open = open.filter((finding) => !found.has(finding));
  }
  // Neither new nor repaired: the other circuit has it as well, set aside.
  const hidden = pairing(identityKey, renamed)(old, judged(aside.after));
  const wereHidden = pairing(identityKey, renamed)(judged(aside.before), open);
  const setAside = new Set(hidden.values());
  const changes = judged(after).flatMap((finding): readonly FindingChange[] => {
    if (unchanged.has(finding)) return [];
    const one = earlier.get(finding);
    if (one !== undefined) return [{ ...item('changed', finding), before: one.range, after: finding.range }];
    return [{ ...item(wereHidden.has(finding) ? 'reopened' : 'new', finding), after: finding.range }];
  });
  const gone = old.map((finding): FindingChange => ({
    ...item(setAside.has(finding) ? 'set-aside' : 'gone', finding),
    before: finding.range,
  }));
  return [...changes, ...gone];
}

type Renamed = (text: string) => string;
type KeyOf = (finding: Finding, renamed: Renamed) => string;

const contentKey: KeyOf = ({ claim }, renamed) => contentOf(claim, renamed);
const identityKey: KeyOf = ({ claim }, renamed) => identityOf(claim, renamed);
const subjectKey: KeyOf = ({ rule, subjects }, renamed) => [rule, ...subjects.map(renamed).sort()].join('\n');

/** For each later finding the earlier one with the same key, each taken once. */
function pairing(
  keyOf: KeyOf,
  renamed: Renamed,
): (before: readonly Finding[], after: readonly Finding[]) => ReadonlyMap<Finding, Finding> {
  return (before, after) => {
    const waiting = new Map<string, Finding[]>();
    for (const finding of before) {
      const key = keyOf(finding, renamed);
      const alike = waiting.get(key);
      if (alike === undefined) waiting.set(key, [finding]);
      else alike.push(finding);
    }
    const pairs = new Map<Finding, Finding>();
    for (const finding of after) {
      const one = waiting.get(keyOf(finding, (text) => text))?.shift();
      if (one !== undefined) pairs.set(finding, one);
    }
    return pairs;
  };
}

const own = new Set([expectation.id, openQuestion.id]);

function judged(findings: readonly Finding[]): readonly Finding[] {
  return findings.filter(({ rule }) => !own.has(rule));
}

function item(kind: FindingChange['kind'], { rule, severity, message }: Finding): FindingChange {
  const says = `${severity} [${rule}] ${message}`;
  const words = kind === 'set-aside' ? 'only set aside: ' : kind === 'reopened' ? 'no longer set aside: ' : '';
  return { kind, rule, severity, message, says: `${words}${says}` };
}
