/** All that is found in a circuit: faults of its text, what the rules find, expectations that fail, and what `allow` sets aside. */
import { benchFindings } from './workshop/index.js';
import { applyAllows, check, rules } from './checks/index.js';
import type { AnalysedCircuit, Circuit } from './circuit/model.js';
import { judgeExpectations } from './intent/index.js';
import { severityRanks, type Finding, type Severity } from './source.js';

export interface FindingOptions {
  /** Another severity by rule, or `off`. */
  readonly severities?: Readonly<Record<string, Severity | 'off'>>;
  /** Only these rules, by name; faults of the text are always told. */
  readonly rules?: readonly string[];
}

/** Findings in the order of the text; at one place faults of the text come first, then errors, warnings and the rest. Never throws for a circuit that lowering made. */
export function findings(circuit: AnalysedCircuit, options: FindingOptions = {}): readonly Finding[] {
  return arrangeFindings(circuit, [...check(circuit), ...judgeExpectations(circuit), ...benchFindings(circuit)], options);
}

/** The same where what rules and expectations tell has been found already, in whatever order. */
export function arrangeFindings(
  circuit: AnalysedCircuit,
  judged: readonly Finding[],
  options: FindingOptions = {},
): readonly Finding[] {
  const found = applyAllows(circuit, judged, rules);
  const wanted = options.rules;
  const told = found
    .filter((finding) => wanted === undefined || wanted.includes(finding.rule))
    .flatMap((finding) => {
      const severity = options.severities?.[finding.rule] ?? finding.severity;
      return severity === 'off' ? [] : [{ ...finding, severity }];
    });
  const ranked = [
    ...circuit.problems.map((finding) => ({ finding, rank: 0 })),
    ...told.map((finding) => ({ finding, rank: 1 + severityRanks[finding.severity] })),
  ];
  return ranked.sort((a, b) => inText(circuit, a.finding, b.finding) || a.rank - b.rank).map(({ finding }) => finding);
}

/** The circuit's own file first, then used files by name. */
function inText(circuit: Circuit, { range: a }: Finding, { range: b }: Finding): number {
  if (a.uri !== b.uri) return a.uri === circuit.uri ? -1 : b.uri === circuit.uri ? 1 : a.uri < b.uri ? -1 : 1;
  return a.start.line - b.start.line || a.start.character - b.start.character;
}
