/** All that is found in a circuit: faults of its text, what the rules find, expectations that fail, and what `allow` sets aside. */
import { benchFindings, buildOf, runSteps } from './workshop/index.js';
import { applyAllows, factsOf, registry, rules, type SetAside, setAsideAmong, toFinding } from './checks/index.js';
import { derive, deriveSteps, isDerived, steppedDerivation, type AnalysedCircuit, type Circuit } from './circuit/model.js';
import { controlEffectSteps } from './electrics/index.js';
import { judgeExpectationSteps } from './intent/index.js';
import type { Steps } from './steps.js';
import { severityRanks, type Finding, type Severity } from './source.js';

export interface FindingOptions {
  /** Another severity by rule, or `off`. */
  readonly severities?: Readonly<Record<string, Severity | 'off'>>;
  /** Only these rules, by name; faults of the text are always reported. */
  readonly rules?: readonly string[];
}

/** Findings in the order of the text; at one place faults of the text come first, then errors, warnings and the rest. Never throws for a circuit that lowering made. */
export function findings(circuit: AnalysedCircuit, options: FindingOptions = {}): readonly Finding[] {
  return arrange(circuit, derive(circuit, judged), options);
}

/** The same in steps of a few milliseconds each, for a host that must stay able to answer. */
export function* findingSteps(circuit: AnalysedCircuit, options: FindingOptions = {}): Steps<readonly Finding[]> {
  return arrange(circuit, yield* deriveSteps(circuit, judged), options);
}

/** A circuit with all that is found in it, as a comparison takes it. */
export function foundIn(circuit: AnalysedCircuit): {
  readonly circuit: AnalysedCircuit;
  readonly findings: readonly Finding[];
  readonly aside: readonly SetAside[];
} {
  return { circuit, findings: findings(circuit), aside: setAside(circuit) };
}

/** The findings that `allow` lines set aside, in the order of the text: none of them is among `findings`. */
export function setAside(circuit: AnalysedCircuit): readonly SetAside[] {
  const found = setAsideAmong(circuit, derive(circuit, judged));
  return [...found].sort((a, b) => inText(circuit, a.finding, b.finding));
}

/** True where everything has been judged already, and only the options are left to apply. */
export function isJudged(circuit: AnalysedCircuit): boolean {
  return isDerived(circuit, judged);
}

/** What the rules, the expectations and the workshop find, before anything is set aside. */
const judged = steppedDerivation(['text'], function* (circuit): Steps<readonly Finding[]> {
  if (circuit.isLibrary) return [];
  const found: Finding[] = [];
  const facts = factsOf(circuit);
  for (const { setting } of facts.groups()) {
    yield* facts.signal.soundSteps(setting);
    yield;
  }
  yield* facts.signal.searchNeverHeard();
  for (const { id } of circuit.shafts) {
    yield* controlEffectSteps(circuit, id);
    yield;
  }
  for (const rule of registry) {
    found.push(...(yield* deriveSteps(circuit, rule.reports)).map((report) => toFinding(rule, report)));
    yield;
  }
  found.push(...(yield* judgeExpectationSteps(circuit)));
  yield;
  const build = buildOf(circuit);
  yield* runSteps(build);
  found.push(...benchFindings(build));
  yield;
  return found;
});

function arrange(circuit: AnalysedCircuit, judged: readonly Finding[], options: FindingOptions): readonly Finding[] {
  const found = applyAllows(circuit, judged, rules);
  const wanted = options.rules;
  const reported = found
    .filter((finding) => wanted === undefined || wanted.includes(finding.rule))
    .flatMap((finding) => {
      const severity = options.severities?.[finding.rule] ?? finding.severity;
      return severity === 'off' ? [] : [{ ...finding, severity }];
    });
  const ranked = [
    ...circuit.problems.map((finding) => ({ finding, rank: 0 })),
    ...reported.map((finding) => ({ finding, rank: 1 + severityRanks[finding.severity] })),
  ];
  return ranked.sort((a, b) => inText(circuit, a.finding, b.finding) || a.rank - b.rank).map(({ finding }) => finding);
}

/** The circuit's own file first, then used files by name. */
function inText(circuit: Circuit, { range: a }: Finding, { range: b }: Finding): number {
  if (a.uri !== b.uri) return a.uri === circuit.uri ? -1 : b.uri === circuit.uri ? 1 : a.uri < b.uri ? -1 : 1;
  return a.start.line - b.start.line || a.start.character - b.start.character;
}
