/** Expectations that hold now or are broken, lines that are new or gone, and checks that are weaker than before. */
import {
  switchById,
  type AnalysedCircuit,
  type Circuit,
  type Claim,
  type ControlSetting,
  type Expectation,
} from '../../circuit/model.js';
import { groupBy, itemAt } from '../../collections.js';
import { describeFound, factsOf } from '../../checks/index.js';
import { evaluateSteps, type ClaimResult } from '../../intent/index.js';
import type { Steps } from '../../steps.js';
import type { ExpectationChange } from '../change.js';
import { claimText, expectationTexts, placeText } from './expectation-texts.js';
import { mapArrangement } from '../heard/heard.js';
import { replacedSteps, type Stated } from './loosened.js';
import type { Match } from '../match/match.js';

/** Claim by claim, each known by what it says of the setting it says it of; in steps of one judged setting each. */
export function* expectationSteps(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  match: Match,
): Steps<readonly ExpectationChange[]> {
  // Nothing is judged while a statement that wires or declares something cannot be read.
  if (factsOf(before).unread.any || factsOf(after).unread.any) return [];
  const old = yield* statedIn(before, after, (line) => mapped(before, after, line, match));
  const now = yield* statedIn(after, after, (line) => line);
  const waiting = groupBy(old, ({ key }) => key);
  const added: Stated[] = [];
  const changes = now.flatMap((stated): ExpectationChange[] => {
    const earlier = waiting.get(stated.key)?.shift();
    const { text, result } = stated;
    if (earlier === undefined) {
      added.push(stated);
      return [];
    }
    const kind = kinds[`${earlier.result.verdict} ${result.verdict}`];
    if (kind === undefined) return [];
    return [
      {
        kind,
        expects: text,
        holds: result.verdict === 'held',
        says: describeExpectation(kind, text, result),
        place: stated.place,
        claim: stated.claim,
        ...(kind === 'held' ? {} : { found: soIn(result, kind === 'broken' ? 'failed' : 'unknown') }),
        before: earlier.result.claim.range,
        after: result.claim.range,
      },
    ];
  });
  const gone = [...waiting.values()].flat();
  const replaced = yield* replacedSteps(after, gone, { all: now, added });
  const news = added
    .filter((stated) => !replaced.taken.has(stated))
    .map(({ text, result }): ExpectationChange => {
      const holds = result.verdict === 'held';
      return { kind: 'new', expects: text, holds, says: `new: ${text} (${soNow(result)})`, after: result.claim.range };
    });
  return [...changes, ...news, ...replaced.changes];
}

const kinds: Readonly<Record<string, 'held' | 'broken' | 'unknown'>> = {
  'held failed': 'broken',
  'unknown failed': 'broken',
  'failed held': 'held',
  'unknown held': 'held',
  'held unknown': 'unknown',
  'failed unknown': 'unknown',
};

function describeExpectation(kind: 'held' | 'broken' | 'unknown', text: string, result: ClaimResult): string {
  if (kind === 'held') return `now met: ${text}`;
  return kind === 'broken'
    ? `broken: ${text} (${soIn(result, 'failed')})`
    : `can’t be checked now: ${text} (${soIn(result, 'unknown')})`;
}

function soNow(result: ClaimResult): string {
  if (result.verdict === 'held') return 'it is met';
  return `${result.verdict === 'failed' ? 'it is not met' : 'it can’t be checked'}: ${soIn(result, result.verdict)}`;
}

function soIn({ outcomes }: ClaimResult, verdict: 'failed' | 'unknown'): string {
  const outcome = outcomes.find((one) => one.verdict === verdict);
  return outcome === undefined ? '' : describeFound(outcome.found);
}

/** A line is written as `after` calls what it names, where it can. */
function* statedIn(
  circuit: AnalysedCircuit,
  after: AnalysedCircuit,
  shownAs: (line: Expectation) => Expectation | undefined,
): Steps<readonly Stated[]> {
  if (circuit.isLibrary) return [];
  const stated: Stated[] = [];
  for (const line of circuit.expectations) {
    const now = shownAs(line);
    const [own, shown] = now === undefined ? [circuit, line] : [after, now];
    const [texts, keys] = [expectationTexts(own, shown), expectationTexts(own, shown, true)];
    for (const [index, result] of (yield* evaluateSteps(circuit, line)).entries())
      stated.push({
        key: itemAt(keys, index),
        text: itemAt(texts, index),
        place: placeText(own, shown),
        claim: claimText(own, itemAt(shown.claims, index)),
        result,
        ...(now === undefined ? {} : { shown: { line: now, claim: itemAt(now.claims, index) } }),
      });
  }
  return stated;
}

/** The line with the ids of the new circuit; absent where something in it is gone. */
function mapped(before: Circuit, after: Circuit, line: Expectation, match: Match): Expectation | undefined {
  const settings = line.settings.map((setting): ControlSetting | undefined => {
    if (setting.kind === 'shaft') {
      const shaft = match.shafts.to.get(setting.shaft);
      return shaft === undefined ? undefined : { ...setting, shaft };
    }
    const device = match.switches.to.get(setting.switch);
    if (device === undefined || switchById(after, device).positions[setting.position] === undefined) return undefined;
    return { ...setting, switch: device };
  });
  const claims = line.claims.map((claim): Claim | undefined => {
    if (claim.kind !== 'sounds') return claim;
    const arrangement = mapArrangement(before, claim.arrangement, match);
    return arrangement === undefined ? undefined : { ...claim, arrangement };
  });
  const at = line.at === undefined ? undefined : match.lugs.to.get(line.at);
  if (settings.includes(undefined) || claims.includes(undefined) || (at === undefined && line.at !== undefined)) return undefined;
  return { ...line, ...(at === undefined ? {} : { at }), settings: settings as ControlSetting[], claims: claims as Claim[] };
}
