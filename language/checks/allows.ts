/** Sets aside what `allow` lines name, and reports those that set nothing aside. */
import type { Allow, AnalysedCircuit, Circuit } from '../circuit/model.js';
import { nearest, oneEditAway } from '../nearest.js';
import type { Finding } from '../source.js';
import { factsOf } from './facts/index.js';
import { toFinding, type RuleInfo } from './rule.js';
import { idleAllow } from './rules/idle-allow.js';

/** `findings` are what rules found (faults of the text cannot be set aside); `rules` are all there are, for the spelling of their names. */
export function applyAllows(
  circuit: AnalysedCircuit,
  findings: readonly Finding[],
  rules: readonly RuleInfo[],
): readonly Finding[] {
  const met = new Set<Allow>();
  const allowsOf = createLookup(circuit.allows);
  const left = findings.filter((finding) => {
    const allows = allowsOf(finding);
    allows.forEach((allow) => met.add(allow));
    return allows.length === 0;
  });
  // While a wire cannot be read, rules keep quiet that the allow may well be meant for.
  const judged = factsOf(circuit).unread.any
    ? circuit.allows.filter(({ rule }) => !rules.some(({ id }) => id === rule))
    : circuit.allows;
  const firstOn = new Map<string, string>();
  for (const { rule, subjects } of findings) {
    if (subjects[0] !== undefined && !firstOn.has(rule)) firstOn.set(rule, subjects[0]);
  }
  const idle = judged.filter((allow) => !met.has(allow)).map((allow) => reportIdle(allow, firstOn.get(allow.rule), rules));
  return [...left, ...idle];
}

/** A finding that an `allow` sets aside. */
export interface SetAside {
  readonly finding: Finding;
  readonly allow: Allow;
}

/** Those of the findings that an `allow` sets aside, each with the first that does, which is one for the whole instrument where there is one. */
export function setAsideAmong(circuit: Circuit, findings: readonly Finding[]): readonly SetAside[] {
  const allowsOf = createLookup(circuit.allows);
  return findings.flatMap((finding) => {
    const [allow] = allowsOf(finding);
    return allow === undefined ? [] : [{ finding, allow }];
  });
}

/** Finds the allows that name a finding's rule, and one of its subjects or none at all. */
function createLookup(allows: readonly Allow[]): (finding: Finding) => readonly Allow[] {
  const byName = new Map<string, Allow[]>();
  const keyOf = (rule: string, on?: string): string => (on === undefined ? rule : `${rule} ${on}`);
  for (const allow of allows) {
    const alike = byName.get(keyOf(allow.rule, allow.on));
    if (alike === undefined) byName.set(keyOf(allow.rule, allow.on), [allow]);
    else alike.push(allow);
  }
  return ({ rule, subjects }) => [undefined, ...subjects].flatMap((on) => byName.get(keyOf(rule, on)) ?? []);
}

/** `found` is the first thing on which the rule is found. */
function reportIdle({ rule, on, range, ruleRange }: Allow, found: string | undefined, rules: readonly RuleInfo[]): Finding {
  const ids = rules.map(({ id }) => id);
  const known = ids.includes(rule);
  const meant = known ? undefined : nearest(rule, ids);
  const { uri, start, end } = range;
  return toFinding(idleAllow, {
    claim: {
      kind: !known ? 'unknown-rule' : found !== undefined ? 'elsewhere' : 'nowhere',
      subjects: {
        allowed: rule,
        ...(on === undefined ? {} : { on }),
        ...(meant === undefined ? {} : { meant }),
        ...(known && found !== undefined ? { found } : {}),
      },
    },
    why: 'An `allow` that sets nothing aside would hide the next mistake of its kind.',
    range: known ? range : ruleRange,
    subjects: on === undefined ? [] : [on],
    fixes: meant
      ? [
          {
            title: `write ${meant}`,
            edits: [{ range: ruleRange, text: meant }],
            confidence: oneEditAway(rule, ids) === meant ? 'sure' : 'likely',
          },
        ]
      : [
          {
            title: 'take out this line',
            edits: [
              { range: { uri, start: { line: start.line, character: 0 }, end: { line: end.line + 1, character: 0 } }, text: '' },
            ],
          },
        ],
  });
}
