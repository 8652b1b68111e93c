/** Findings before and after a change: what it cures, and whether it brings anything new. */
import type { Circuit } from '../../circuit/model.js';
import { applyAllows, check, rules, type Rule } from '../../checks/index.js';
import { registry } from '../../checks/registry.js';
import type { Finding } from '../../source.js';
import { judgeExpectations } from '../judge-expectations.js';

/** Errors and warnings of a circuit, what `allow` sets aside left out, faults of the text not counted. */
export function faultsOf(circuit: Circuit): readonly Finding[] {
  return applyAllows(circuit, [...check(circuit, faultRules), ...judgeExpectations(circuit)], rules).filter((finding) =>
    isFault(finding),
  );
}

export interface Weighed {
  readonly cured: readonly Finding[];
  /** What was there before and still is. */
  readonly left: readonly Finding[];
}

/** What a changed circuit cures of `before`; nothing where it brings a fault that was not there. */
export function weigh(circuit: Circuit, before: readonly Finding[]): Weighed | undefined {
  const after: Finding[] = [];
  const told = new Set(before.map(({ rule }) => rule));
  const asks: readonly (() => readonly Finding[])[] = [
    // Whether it cures anything is asked first, since most changes do not.
    ...faultRules.filter(({ id }) => told.has(id)).map((rule) => () => check(circuit, [rule])),
    ...(told.has('expectation') ? [() => judgeExpectations(circuit).filter(isFault)] : []),
    () => [],
    ...faultRules.filter(({ id }) => !told.has(id)).map((rule) => () => check(circuit, [rule])),
    ...(told.has('expectation') ? [] : [() => judgeExpectations(circuit).filter(isFault)]),
  ];
  let cured: readonly Finding[] = [];
  for (const [index, ask] of asks.entries()) {
    const found = allowed(circuit, ask());
    if (found.some((finding) => isFresh(finding, before))) return undefined;
    after.push(...found);
    if (index !== told.size) continue;
    cured = before.filter((finding) => !after.some((other) => isSame(finding, other)));
    if (cured.length === 0) return undefined;
  }
  return { cured, left: after };
}

/** True for a finding that another wiring can cure: not a value, a colour, or an `allow` that meets nothing. */
export function isCurable({ rule }: Finding): boolean {
  return !beyondWiring.has(rule);
}

const beyondWiring = new Set(['idle-allow', 'implausible-value', 'unusual-pickup', 'earth-colour', 'unwired-part', 'fragment']);

/** Those that are cheap to ask come first, those that turn every pot in every position last. */
const faultRules: readonly Rule[] = registry
  .filter(({ severity }) => severity === 'error' || severity === 'warning')
  .sort((a, b) => rankOf(a) - rankOf(b));

function rankOf({ id }: Rule): number {
  return ['idle-switch', 'backwards-control', 'idle-control'].indexOf(id) + 1;
}

function isFault({ severity }: Finding): boolean {
  return severity === 'error' || severity === 'warning';
}

function allowed(circuit: Circuit, found: readonly Finding[]): readonly Finding[] {
  if (found.length === 0 || circuit.allows.length === 0) return found;
  return applyAllows(circuit, found, rules).filter(({ rule }) => rule !== 'idle-allow');
}

/** A finding about fewer things than one that was there is what is left of that one. */
function isFresh(finding: Finding, before: readonly Finding[]): boolean {
  return !before.some(
    (other) =>
      other.rule === finding.rule &&
      (isAboutClaim(finding)
        ? isAtOnePlace(finding, other)
        : finding.subjects.every((subject) => other.subjects.includes(subject))),
  );
}

function isSame(one: Finding, other: Finding): boolean {
  if (one.rule !== other.rule) return false;
  if (isAboutClaim(one)) return isAtOnePlace(one, other);
  return one.subjects.some((subject) => other.subjects.includes(subject));
}

function isAboutClaim({ rule }: Finding): boolean {
  return rule === 'expectation';
}

function isAtOnePlace({ range: a }: Finding, { range: b }: Finding): boolean {
  return a.uri === b.uri && a.start.line === b.start.line && a.start.character === b.start.character;
}
