/** Checks: what every guitar needs, one rule a file, from a circuit and its electrics. */
import type { AnalysedCircuit } from '../circuit/model.js';
import type { Finding } from '../source.js';
import { factsOf } from './facts/index.js';
import { registry } from './registry.js';
import { reportsOf, toFinding, type Rule, type RuleInfo } from './rule.js';
import { expectation } from './rules/expectation.js';
import { idleAllow } from './rules/idle-allow.js';
import { fullChannel } from './rules/full-channel.js';
import { outerFoil } from './rules/outer-foil.js';
import { openQuestion } from './rules/open-question.js';
import { shortBushing } from './rules/short-bushing.js';
import { shortWire } from './rules/short-wire.js';
import { misplacedHole } from './rules/misplaced-hole.js';
import { tightFit } from './rules/tight-fit.js';

export { takesAway } from './facts/unread-parts.js';
export { expectation, fullChannel, misplacedHole, openQuestion, outerFoil, registry, shortBushing, shortWire, tightFit };
export { applyAllows, type SetAside, setAsideAmong } from './allows.js';
export { defineRule, toFinding, type Rule, type RuleInfo, type Report } from './rule.js';
export { factsOf, type Facts } from './facts/index.js';
export { decibelText, hertzText, limitText, millimetres, ohmText } from './facts/amounts.js';
export { controlAt, controlsIn, describeSettings, potsIn, rowsOf, settingsOf, whereSaid } from './facts/index.js';
export type { FullChannelClaim } from './rules/full-channel.js';
export type { OuterFoilClaim } from './rules/outer-foil.js';
export type { ShortBushingClaim } from './rules/short-bushing.js';
export type { ShortWireClaim } from './rules/short-wire.js';
export type { MisplacedHoleClaim } from './rules/misplaced-hole.js';
export type { TightFitClaim } from './rules/tight-fit.js';
export { describeExpected, describeFound, type ExpectationClaim, type Expected, type Found } from './rules/expectation.js';
export type { OpenQuestionClaim } from './rules/open-question.js';
export { knownPositions, solvePositions } from './facts/signal/position-rows.js';
export { isShortedAt } from './facts/signal/shorted.js';

/** Every rule, with its severity, summary and page: what `allow` and settings may name. The last eight are judged in `bench/`, in `intent/` and by `applyAllows`. */
export const rules: readonly RuleInfo[] = [
  ...registry,
  shortWire,
  fullChannel,
  misplacedHole,
  tightFit,
  shortBushing,
  outerFoil,
  expectation,
  openQuestion,
  idleAllow,
];

/**
 * What the rules find in a circuit, in the order of the rules, nothing set aside and no fault of the text among it.
 * Needs no text: a circuit with changed joints is checked as well. A library of types, without parts, has nothing to check.
 *
 * While a statement that wires or declares something cannot be read, rules that tell of something missing keep quiet: about the
 * parts that the statement names, and about the instrument as a whole (`facts/unread-parts.ts`). What is there is judged all the same.
 */
export function check(circuit: AnalysedCircuit, only: readonly Rule[] = registry): readonly Finding[] {
  if (circuit.isLibrary) return [];
  const facts = factsOf(circuit);
  const size = circuit.lugs.length + circuit.joints.length + circuit.elements.length;
  return only.flatMap((rule) => {
    circuit.analysis.work?.charge('rule', size);
    return reportsOf(facts, rule).map((report) => toFinding(rule, report));
  });
}
