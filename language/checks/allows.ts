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
  const left = findings.filter((finding) => {
    const allows = circuit.allows.filter((allow) => isMeant(allow, finding));
    allows.forEach((allow) => met.add(allow));
    return allows.length === 0;
  });
  // While a wire cannot be read, rules keep quiet that the allow may well be meant for.
  const judged = factsOf(circuit).loss.any
    ? circuit.allows.filter(({ rule }) => !rules.some(({ id }) => id === rule))
    : circuit.allows;
  const idle = judged.filter((allow) => !met.has(allow)).map((allow) => tell(allow, findings, rules));
  return [...left, ...idle];
}

function isMeant(allow: Allow, finding: Finding): boolean {
  return allow.rule === finding.rule && (allow.on === undefined || finding.subjects.includes(allow.on));
}

function tell(allow: Allow, findings: readonly Finding[], rules: readonly RuleInfo[]): Finding {
  const known = rules.some((rule) => rule.id === allow.rule);
  const near = known
    ? undefined
    : nearest(
        allow.rule,
        rules.map(({ id }) => id),
      );
  const elsewhere = findings.filter((finding) => finding.rule === allow.rule).flatMap(({ subjects }) => subjects.slice(0, 1));
  const message = !known
    ? `there is no finding called ${allow.rule}${near ? `; did you mean ${near}?` : ''}`
    : elsewhere.length > 0
      ? `nothing to allow: ${allow.rule} is not found on ${allow.on ?? 'this instrument'}, but on ${elsewhere[0]!}`
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
