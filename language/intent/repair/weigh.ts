/** Findings before and after a change: what it cures, and whether it brings anything new. */
import type { AnalysedCircuit } from '../../circuit/model.js';
import { applyAllows, check, registry, rules, type Rule } from '../../checks/index.js';
import { effectAnywhere } from '../../electrics/index.js';
import type { Finding } from '../../source.js';
import { judgeExpectations } from '../judge/judge-expectations.js';
import type { Heard } from '../judge/judge.js';
import { createKnown, isAboutClaim, type Known } from './known.js';

/** Errors and warnings of a circuit, what `allow` sets aside left out, faults of the text not counted. */
export function faultsOf(circuit: AnalysedCircuit): readonly Finding[] {
  return applyAllows(circuit, [...check(circuit, faultRules), ...judgeExpectations(circuit)], rules).filter((finding) =>
    isFault(finding),
  );
}

/** The claims of a circuit that fail. */
export function failedClaims(circuit: AnalysedCircuit, heardBy?: (at: AnalysedCircuit) => Heard): readonly Finding[] {
  return judgeExpectations(circuit, heardBy).filter(isFault);
}

export interface Weighed {
  readonly cured: readonly Finding[];
  /** What was there before and still is. */
  readonly left: readonly Finding[];
}

/**
 * What a changed circuit cures of `before`, by only the rules that reported it; undefined where it cures nothing, or where one of these rules finds
 * something new. Most changes cure nothing, so this cheap check comes first. Each pot is turned separately. `failed` gives the claims that fail in it.
 */
export function* curesOf(
  circuit: AnalysedCircuit,
  before: Known,
  failed: () => readonly Finding[],
): Generator<undefined, Weighed | undefined> {
  const left = new Set<Finding>();
  /** Notes which of `reported` are still found; false where something new is found. */
  const compare = (reported: readonly Finding[], found: readonly Finding[]): boolean => {
    if (found.some((finding) => before.isFresh(finding))) return false;
    const still = createKnown(found, circuit.analysis.work);
    for (const finding of reported) if (still.isStill(finding)) left.add(finding);
    return true;
  };
  for (const rule of quickestFirst) {
    const reported = before.of(rule.id);
    if (reported.length === 0) continue;
    yield;
    if (turning.has(rule.id)) {
      // One cause usually silences all of them, so it is enough to try a few.
      const still = reported.slice(0, fewTurned).filter((one) => !works(circuit, one));
      for (const finding of still.length === fewTurned ? reported : still) left.add(finding);
    } else if (!compare(reported, allowed(circuit, check(circuit, [rule])))) return undefined;
  }
  const claims = before.all.filter(isAboutClaim);
  if (claims.length > 0) {
    yield;
    if (!compare(claims, failed())) return undefined;
  }
  const cured = before.all.filter((finding) => !left.has(finding));
  return cured.some(isCurable) ? { cured, left: [...left] } : undefined;
}

/** What a changed circuit cures, by all rules; nothing where it brings a fault that was not there. */
export function* weigh(
  circuit: AnalysedCircuit,
  before: Known,
  failed: () => readonly Finding[],
): Generator<undefined, Weighed | undefined> {
  const after: Finding[] = [];
  const isReported = (rule: Rule): boolean => before.of(rule.id).length > 0;
  const asks = [
    ...quickestFirst.filter((rule) => !isReported(rule)).map((rule) => () => check(circuit, [rule])),
    failed,
    // These were asked before, so that they are known.
    ...faultRules.filter(isReported).map((rule) => () => check(circuit, [rule])),
  ];
  for (const ask of asks) {
    yield;
    const found = allowed(circuit, ask());
    if (found.some((finding) => before.isFresh(finding))) return undefined;
    after.push(...found);
  }
  const still = createKnown(after, circuit.analysis.work);
  const cured = before.all.filter((finding) => !still.isStill(finding));
  return cured.some(isCurable) ? { cured, left: after } : undefined;
}

/** Pots turned, to learn whether a change cures what is reported of them. */
const fewTurned = 2;

/** What the cheap questions of a search see by themselves: silence, loose leads, metal off ground. */
export function isHeard({ rule }: Finding): boolean {
  return heard.has(rule);
}

const heard = new Set([
  'never-heard',
  'silent-position',
  'no-output',
  'shorted-output',
  'loose-lead',
  'floating-metal',
  'expectation',
]);

/** Rules that turn every pot in every position. */
const turning = new Set(['backwards-control', 'idle-control']);

/** True where the pot that a finding tells of now does something, and the right way round. */
function works(circuit: AnalysedCircuit, { subjects }: Finding): boolean {
  const shafts = circuit.shafts.filter(({ name }) => subjects.includes(name));
  return shafts.every(({ id }) => {
    const { role, backwards } = effectAnywhere(circuit, id);
    return role !== 'nothing' && role !== 'unwired' && !backwards;
  });
}

/** True for a finding that another wiring can cure: not a value, a colour, or an `allow` that meets nothing. */
export function isCurable({ rule }: Finding): boolean {
  return !beyondWiring.has(rule);
}

const beyondWiring = new Set([
  'idle-allow',
  'implausible-value',
  'unusual-pickup',
  'overloaded-diode',
  'earth-colour',
  'unwired-part',
  'fragment',
]);

/** In the order in which a repair names what it cures: what a position or a pot does usually follows from something else. */
const faultRules: readonly Rule[] = withLast(
  registry.filter(({ severity }) => severity === 'error' || severity === 'warning'),
  [
    'silent-position',
    'out-of-phase',
    'idle-switch',
    'twin-positions',
    'backwards-control',
    'idle-control',
    'odd-volume',
    'one-sided-control',
  ],
);

/** In the order in which a changed circuit is asked: those that solve it come late, those that turn every pot or sweep every stage last. */
const quickestFirst: readonly Rule[] = withLast(faultRules, [
  'unusual-part',
  'unusual-position',
  'hanging-coil',
  'never-heard',
  'silent-position',
  'out-of-phase',
  'silent-at-rest',
  'twin-positions',
  'idle-switch',
  'idle-part',
  'unusual-control',
  'backwards-control',
  'idle-control',
  'odd-volume',
  'one-sided-control',
  'oscillating-stage',
]);

/** Rules with these at the end, in this order. */
function withLast(some: readonly Rule[], last: readonly string[]): readonly Rule[] {
  return [...some].sort((a, b) => last.indexOf(a.id) - last.indexOf(b.id));
}

function isFault({ severity }: Finding): boolean {
  return severity === 'error' || severity === 'warning';
}

function allowed(circuit: AnalysedCircuit, found: readonly Finding[]): readonly Finding[] {
  const faults = found.filter(isFault);
  if (faults.length === 0 || circuit.allows.length === 0) return faults;
  return applyAllows(circuit, faults, rules).filter(({ rule }) => rule !== 'idle-allow');
}
