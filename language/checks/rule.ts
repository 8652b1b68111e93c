/** What a rule is, and how what it tells becomes a finding. */
import type { Finding, Fix, Related, Severity, SourceRange } from '../source.js';
import { finished, type Steps } from '../steps.js';
import type { Facts } from './facts/index.js';

/** What is known of a rule without running it: for the tables of the docs, settings and links. */
export interface RuleInfo {
  /** The rule's name in findings and after `allow`. */
  readonly id: string;
  readonly severity: Severity;
  /** One line, lower case, no full stop. */
  readonly summary: string;
  /** Its page, from the root of the repository. */
  readonly page: string;
}

export interface Rule extends RuleInfo {
  check(facts: Facts): readonly Report[];
  /** The same in small steps, for a host that must stay able to answer. */
  checkSteps(facts: Facts): Steps<readonly Report[]>;
}

/** One thing a rule tells; `index.ts` adds the rule's name and severity. */
export interface Report {
  readonly message: string;
  readonly why?: string;
  readonly range: SourceRange;
  readonly related?: readonly Related[];
  readonly fixes?: readonly Fix[];
  /** Part names and lug labels; a lug's part is added where the finding is made. */
  readonly subjects: readonly string[];
}

/** A rule with its page beside it. */
export function defineRule(
  rule: Omit<Rule, 'page' | 'check' | 'checkSteps'> & (Pick<Rule, 'check'> | Pick<Rule, 'checkSteps'>),
): Rule {
  const checkSteps =
    'checkSteps' in rule
      ? rule.checkSteps
      : // eslint-disable-next-line require-yield -- a rule that is quick is one step
        function* (facts: Facts): Steps<readonly Report[]> {
          return rule.check(facts);
        };
  return { check: (facts) => finished(checkSteps(facts)), ...rule, checkSteps, page: pageOf(rule.id) };
}

/** A rule that is judged elsewhere than in its file. */
export function ruleInfo(id: string, severity: Severity, summary: string): RuleInfo {
  return { id, severity, summary, page: pageOf(id) };
}

function pageOf(id: string): string {
  return `language/checks/rules/${id}.md`;
}

export function toFinding(info: RuleInfo, severity: Severity, report: Report): Finding {
  return {
    rule: info.id,
    severity,
    message: report.message,
    ...(report.why === undefined ? {} : { why: report.why }),
    range: report.range,
    related: report.related ?? [],
    fixes: report.fixes ?? [],
    subjects: withParts(report.subjects),
  };
}

/** `volume.3` can be set aside by naming `volume` as well. */
function withParts(subjects: readonly string[]): readonly string[] {
  const all = new Set(subjects);
  for (const subject of subjects) {
    const dot = subject.indexOf('.');
    if (dot > 0) all.add(subject.slice(0, dot));
  }
  return [...all];
}
