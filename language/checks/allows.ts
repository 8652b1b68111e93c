/** Sets aside what `allow` lines name, and tells of those that meet nothing. */
import type { Allow, Circuit } from '../circuit/model.js';
import { nearest } from '../nearest.js';
import type { Finding } from '../source.js';
import { factsOf } from './facts/index.js';
import { toFinding, type RuleInfo } from './rule.js';
import { idleAllow } from './rules/idle-allow.js';

/** `findings` are what rules found (faults of the text cannot be set aside); `rules` are all there are, for the spelling of their names. */
export function applyAllows(circuit: Circuit, findings: readonly Finding[], rules: readonly RuleInfo[]): readonly Finding[] {
  const met = new Set<Allow>();
  const allowsOf = createLookup(circuit.allows);
  const left = findings.filter((finding) => {
    const allows = allowsOf(finding);
    allows.forEach((allow) => met.add(allow));
    return allows.length === 0;
  });
  // While a wire cannot be read, rules keep quiet that the allow may well be meant for.
  const judged = factsOf(circuit).loss.any
    ? circuit.allows.filter(({ rule }) => !rules.some(({ id }) => id === rule))
    : circuit.allows;
  const firstOn = new Map<string, string>();
  for (const { rule, subjects } of findings) {
    if (subjects[0] !== undefined && !firstOn.has(rule)) firstOn.set(rule, subjects[0]);
  }
  const idle = judged.filter((allow) => !met.has(allow)).map((allow) => tell(allow, firstOn.get(allow.rule), rules));
  return [...left, ...idle];
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

/** `elsewhere` is the first thing on which the rule is found. */
function tell(allow: Allow, elsewhere: string | undefined, rules: readonly RuleInfo[]): Finding {
  const known = rules.some((rule) => rule.id === allow.rule);
  const near = known
    ? undefined
    : nearest(
        allow.rule,
        rules.map(({ id }) => id),
      );
  const message = !known
    ? `there is no finding called ${allow.rule}${near ? `; did you mean ${near}?` : ''}`
    : elsewhere !== undefined
      ? `nothing to allow: ${allow.rule} is not found on ${allow.on ?? 'this instrument'}, but on ${elsewhere}`
      : `nothing to allow: ${allow.rule} is not found${allow.on === undefined ? '' : ` on ${allow.on}`}`;
  const { uri, start, end } = allow.range;
  return toFinding(idleAllow, idleAllow.severity, {
    message,
    why: 'An `allow` that meets nothing would hide the next mistake of its kind.',
    range: known ? allow.range : allow.ruleRange,
    subjects: allow.on === undefined ? [] : [allow.on],
    fixes: near
      ? [{ title: `write ${near}`, edits: [{ range: allow.ruleRange, text: near }] }]
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
