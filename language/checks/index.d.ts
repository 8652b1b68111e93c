/** Checks: what every guitar needs, one rule a file, from a circuit and its electrics. */
import type { Circuit } from '../circuit/model.js';
import type { Finding } from '../source.js';
import { type Rule, type RuleInfo } from './rule.js';
export { applyAllows } from './allows.js';
export { defineRule, toFinding, type Rule, type RuleInfo, type Told } from './rule.js';
export { factsOf, type Facts } from './facts/index.js';
export { listed, whereSaid } from './facts/index.js';
/** Every rule of this stage with its severity, summary and page; `language/findings.ts` adds those of intent. */
export declare const checkRules: readonly RuleInfo[];
/**
 * What the rules find in a circuit, in the order of the rules, nothing set aside and no fault of the text among it.
 * Needs no text: a circuit with changed joints is checked as well. A library of types, without parts, has nothing to check.
 *
 * While a statement that wires or declares something cannot be read, rules that tell of something missing keep quiet: about the
 * parts that the statement names, and about the instrument as a whole (`facts/loss.ts`). What is there is judged all the same.
 */
export declare function check(circuit: Circuit, rules?: readonly Rule[]): readonly Finding[];
