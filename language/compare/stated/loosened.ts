/** Claims that are gone or stand otherwise: whether what replaces them checks as much. */
import type { AnalysedCircuit, Claim, Expectation } from '../../circuit/model.js';
import { describeFound } from '../../checks/index.js';
import { heardAt, settingLabel, settingsMatching, type Setting } from '../../electrics/index.js';
import { evaluateSteps, usualDecibels, usualWithin, type ClaimResult } from '../../intent/index.js';
import type { Steps } from '../../steps.js';
import type { ExpectationChange } from '../change.js';
import { claimText } from './expectation-texts.js';

/** A claim of one circuit. */
export interface Stated {
  /** What it says, whatever the order of its settings. */
  readonly key: string;
  /** `expect selector "both" : hum cancelled`, in the names of the new circuit where they have their like there. */
  readonly text: string;
  /** The two halves of that text. */
  readonly place: string;
  readonly claim: string;
  /** How the circuit that states it judges it. */
  readonly result: ClaimResult;
  /** The line, and the circuit that it is about now; absent where something that it names is gone. */
  readonly shown?: { readonly line: Expectation; readonly claim: Claim };
}

interface Replaced {
  readonly changes: readonly ExpectationChange[];
  /** New claims that replace one that is gone. */
  readonly taken: ReadonlySet<Stated>;
}

/**
 * What became of each claim that is gone: replaced by one of its kind for the same settings (`loosened`, `tightened`, `rewritten`), checked in
 * fewer settings now (`narrowed`), covered by another claim, or dropped. `all` are the claims of the new circuit, `added` those that are new.
 */
export function* replacedSteps(
  after: AnalysedCircuit,
  gone: readonly Stated[],
  { all, added }: { readonly all: readonly Stated[]; readonly added: readonly Stated[] },
): Steps<Replaced> {
  const taken = new Set<Stated>();
  const changes: ExpectationChange[] = [];
  for (const one of gone) {
    const { shown, text, result } = one;
    const before = result.claim.range;
    if (shown === undefined) {
      changes.push({ kind: 'gone', expects: text, says: `gone: ${text} (${soThen(result)}; what it names is gone)`, before });
      continue;
    }
    const partner = added.find((now) => !taken.has(now) && isSamePlace(after, now, shown.line) && isAlike(now, shown.claim));
    const isStillCovered = uncovered(after, shown, all).length === 0;
    if (partner !== undefined) {
      taken.add(partner);
      const kind = isStillCovered ? 'tightened' : isWider(partner.result.claim, shown.claim) ? 'loosened' : 'rewritten';
      const earlier = claimText(after, shown.claim);
      const fails = kind === 'rewritten' ? yield* failsNow(after, shown) : '';
      changes.push({
        kind,
        expects: partner.text,
        holds: partner.result.verdict === 'held',
        ...(kind === 'loosened' ? { weakens: true } : {}),
        says: `${kind}: ${partner.text} (before: ${earlier}${fails === '' ? '' : `, which ${fails}`})`,
        before,
        after: partner.result.claim.range,
      });
      continue;
    }
    changes.push(yield* droppedSteps(after, one, shown, all));
  }
  return { changes, taken };
}

function* droppedSteps(
  after: AnalysedCircuit,
  { text, result }: Stated,
  shown: NonNullable<Stated['shown']>,
  all: readonly Stated[],
): Steps<ExpectationChange> {
  const before = result.claim.range;
  const open = uncovered(after, shown, all);
  const at = heardAt(after, shown.line.at);
  const total = settingsMatching(at, shown.line.settings).length;
  if (open.length === 0)
    return { kind: 'gone', expects: text, says: `gone: ${text} (${soThen(result)}; other lines check it)`, before };
  const fails = yield* failsNow(after, shown);
  const end = fails === '' ? '' : `, and ${fails}`;
  if (open.length === total)
    return { kind: 'gone', expects: text, weakens: true, says: `gone: ${text} (${soThen(result)}${end})`, before };
  const where = open.map((setting) => settingLabel(after, setting) || 'default').join('; ');
  return {
    kind: 'narrowed',
    expects: text,
    weakens: true,
    says: `narrowed: ${text} (no longer checked at ${where}${end})`,
    before,
  };
}

/** `would fail now: the meter reads 7.1k`, or nothing. */
function* failsNow(after: AnalysedCircuit, { line, claim }: NonNullable<Stated['shown']>): Steps<string> {
  const [judged] = yield* evaluateSteps(after, { ...line, claims: [claim] });
  const failed = judged?.outcomes.find(({ verdict }) => verdict === 'failed');
  return failed === undefined ? '' : `would fail now: ${describeFound(failed.found)}`;
}

function soThen({ verdict }: ClaimResult): string {
  return verdict === 'held' ? 'it was met' : verdict === 'failed' ? 'it was not met' : 'it could not be checked';
}

/** The settings in which no claim of the new circuit asks for as much. */
function uncovered(
  after: AnalysedCircuit,
  { line, claim }: NonNullable<Stated['shown']>,
  all: readonly Stated[],
): readonly Setting[] {
  const at = heardAt(after, line.at);
  const able = all.filter(({ result }) => result.expectation.at === line.at && implies(after, result.claim, claim));
  const covered = new Set(able.flatMap(({ result }) => result.outcomes.map(({ setting }) => settingKey(setting))));
  return settingsMatching(at, line.settings).filter((setting) => !covered.has(settingKey(setting)));
}

function settingKey({ positions, rotations }: Setting): string {
  return `${positions.join()} ${rotations.join()}`;
}

/** True where it speaks of exactly the line's settings. */
function isSamePlace(after: AnalysedCircuit, { result }: Stated, line: Expectation): boolean {
  if (result.expectation.at !== line.at) return false;
  const keys = settingsMatching(heardAt(after, line.at), line.settings).map(settingKey);
  return keys.join('\n') === result.outcomes.map(({ setting }) => settingKey(setting)).join('\n');
}

/** What is heard, or what the meter shows, said in one way or another. */
const families: Readonly<Partial<Record<Claim['kind'], string>>> = {
  silent: 'sounds',
  'reads-open': 'reads',
  'reads-short': 'reads',
};

function isAlike({ result: { claim } }: Stated, other: Claim): boolean {
  const hz = (one: Claim): number | undefined => (one.kind === 'level' ? one.hz : undefined);
  return (families[claim.kind] ?? claim.kind) === (families[other.kind] ?? other.kind) && hz(claim) === hz(other);
}

/** True where what meets `now` meets `old` as well. */
function implies(circuit: AnalysedCircuit, now: Claim, old: Claim): boolean {
  const [inner, outer] = [spanOf(now), spanOf(old)];
  if (inner === undefined || outer === undefined) return claimText(circuit, now) === claimText(circuit, old);
  return inner.of === outer.of && inner.low >= outer.low && inner.high <= outer.high;
}

/** True where a claim allows all that the other did, and more. */
function isWider(now: Claim, old: Claim): boolean {
  const [outer, inner] = [spanOf(now), spanOf(old)];
  return (
    outer !== undefined && inner !== undefined && outer.of === inner.of && outer.low <= inner.low && outer.high >= inner.high
  );
}

interface Span {
  readonly of: string;
  readonly low: number;
  readonly high: number;
}

/** What a figure may be, in its own unit. Without `within` the wider of the assumed limits and the usual share counts, which is at least that share. */
function spanOf(claim: Claim): Span | undefined {
  const around = (value: number, within: number | undefined): Span => {
    const share = within ?? usualWithin * atLeast;
    return { of: claim.kind, low: value * (1 - share), high: value * (1 + share) };
  };
  switch (claim.kind) {
    case 'reads':
      return around(claim.ohm, claim.within);
    case 'peak':
    case 'cutoff':
      return around(claim.hz, claim.within);
    case 'level': {
      const within = claim.within ?? usualDecibels;
      return { of: `level ${claim.hz ?? ''}`, low: claim.db - within, high: claim.db + within };
    }
    default:
      return undefined;
  }
}

/** A share that is stated is narrower than the same one that is the least. */
const atLeast = 1 + 1e-9;
