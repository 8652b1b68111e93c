/** What a rule is, and how its reports become findings. */
import type { Confidence, Finding, Fix, Related, Severity, SourceRange, Statement } from '../source.js';
import { derivation, derive, steppedDerivation, type SteppedDerivation } from '../circuit/model.js';
import { finished, type Steps } from '../steps.js';
import { factsOf, type Facts } from './facts/index.js';

/** What is known of a rule without running it: for the tables of the docs, settings and links. */
export interface RuleInfo<C extends Statement = Statement> {
  /** The rule's name in findings and after `allow`. */
  readonly id: string;
  readonly severity: Severity;
  /** One line, lower case, no full stop. */
  readonly summary: string;
  /** Its page, from the root of the repository. */
  readonly page: string;
  /** The sentence of a claim, made from nothing else. */
  describe(claim: C): string;
}

/** Rules that found nothing, by name. Their silence holds for every circuit that means the same, whatever its wires look like and wherever its lines are. */
const silent = derivation(['meaning'], () => new Set<string>());

export interface Rule<C extends Statement = Statement> extends RuleInfo<C> {
  /** True where it looks at the colour, gauge, length or mark of a wire. */
  readonly readsLooks?: true;
  check(facts: Facts): readonly Report<C>[];
  /** The same in small steps, for a host that must stay able to answer. */
  checkSteps(facts: Facts): Steps<readonly Report<C>[]>;
  /** What it reports of a circuit, kept there: some rules keep quiet about what another reports. */
  readonly reports: SteppedDerivation<readonly Report<C>[]>;
}

/** What a rule suggests without having tried it: `possible`, unless it says otherwise. */
interface Suggestion extends Omit<Fix, 'confidence'> {
  readonly confidence?: Confidence;
}

/** One problem that a rule reports; `toFinding` adds the rule's name, the severity and the sentence. */
export interface Report<C extends Statement = Statement> {
  /** What is said, as data. */
  readonly claim: C;
  readonly why?: string;
  /** Where this report weighs less than others of the rule. */
  readonly severity?: Severity;
  readonly range: SourceRange;
  readonly related?: readonly Related[];
  readonly fixes?: readonly Suggestion[];
  /** Part names and lug labels; a lug's part is added where the finding is made. */
  readonly subjects: readonly string[];
}

/** A rule with its page beside it. */
export function defineRule<C extends Statement>(
  rule: Omit<Rule<C>, 'page' | 'check' | 'checkSteps' | 'reports'> & (Pick<Rule<C>, 'check'> | Pick<Rule<C>, 'checkSteps'>),
): Rule<C> {
  const checkSteps =
    'checkSteps' in rule
      ? rule.checkSteps
      : // eslint-disable-next-line require-yield -- a rule that is quick is one step
        function* (facts: Facts): Steps<readonly Report<C>[]> {
          return rule.check(facts);
        };
  return {
    check: (facts) => finished(checkSteps(facts)),
    ...rule,
    checkSteps,
    reports: steppedDerivation(['text'], function* (circuit): Steps<readonly Report<C>[]> {
      if (rule.readsLooks !== true && derive(circuit, silent).has(rule.id)) return [];
      const found = yield* checkSteps(factsOf(circuit));
      if (found.length === 0) derive(circuit, silent).add(rule.id);
      return found;
    }),
    page: pageOf(rule.id),
  };
}

/** What a rule reports of a circuit, worked out once. */
export function reportsOf<C extends Statement>({ circuit }: Facts, { reports }: Rule<C>): readonly Report<C>[] {
  return derive(circuit, reports);
}

/** A rule that is judged elsewhere than in its file. */
export function ruleInfo<C extends Statement>(
  id: string,
  severity: Severity,
  summary: string,
  describe: (claim: C) => string,
): RuleInfo<C> {
  return { id, severity, summary, page: pageOf(id), describe };
}

function pageOf(id: string): string {
  return `language/checks/rules/${id}.md`;
}

export function toFinding<C extends Statement>(info: RuleInfo<C>, report: Report<C>): Finding {
  return {
    rule: info.id,
    severity: report.severity ?? info.severity,
    claim: { rule: info.id, ...report.claim },
    message: info.describe(report.claim),
    ...(report.why === undefined ? {} : { why: report.why }),
    range: report.range,
    related: report.related ?? [],
    fixes: (report.fixes ?? []).map((fix): Fix => ({ confidence: 'possible', ...fix })),
    subjects: withParts(report.subjects),
  };
}

/** `volume.3` can be set aside by naming `volume` as well, and `preamp.volume.3` by naming `preamp.volume` or `preamp`; a screen goes by what it begins at. */
function withParts(subjects: readonly string[]): readonly string[] {
  const all = new Set(subjects);
  for (const subject of subjects) {
    const last = subject.includes(' ') ? subject.indexOf('.') : subject.lastIndexOf('.');
    for (let dot = last; dot > 0; dot = subject.lastIndexOf('.', dot - 1)) all.add(subject.slice(0, dot));
  }
  return [...all];
}
