/** The whole comparison in one place: match the parts, then hold wires, behaviour, expectations, findings and work against each other. */
import { finished, type Steps } from '../steps.js';
import type { Change, Side } from './change.js';
import { compareControls } from './heard/controls.js';
import { electricalSteps } from './heard/electrical.js';
import { expectationSteps } from './stated/expectations.js';
import { compareFindings } from './stated/findings.js';
import { compareInstruments } from './build/instrument.js';
import { matchCircuits, type Match } from './match/match.js';
import { pairWires, type WirePairs } from './match/pair-wires.js';
import type { AnalysedCircuit } from '../circuit/model.js';
import { lostSteps } from './heard/lost.js';
import { reworkOf } from './build/rework.js';
import { compareParts } from './build/parts.js';
import { compareRecords } from './stated/records.js';
import { comparePositions } from './heard/positions.js';
import { compareWires } from './build/wires.js';
import { compareCuts, compareSteps } from './build/work.js';
import { asideOf, compareAllows } from './stated/aside.js';
import { incomplete, unreadIn } from './stated/unread.js';
import { buildOf, planSteps } from '../workshop/index.js';
import { factsOf } from '../checks/index.js';

/** What in the instrument's own words is no work at the bench. */
const onPaper = new Set(['title', 'cable', 'input']);
/** What about a part is no work at the bench. */
const inNameOnly = new Set(['name', 'position']);

/** What changed from one circuit to another: a pure function of both and of what is found in them. Never throws for circuits that lowering made. */
export function compare(before: Side, after: Side): Change {
  return finished(changeSteps(before, after));
}

/** The same in steps: one for each thing that is compared, one for each setting and shaft. */
export function* changeSteps(old: Side, now: Side): Steps<Change> {
  const [before, after] = [old.circuit, now.circuit];
  const match = matchCircuits(before, after);
  yield;
  const pairs = pairWires(before, after, match);
  yield;
  const same = yield* electricalSteps(before, after, match);
  const unread = [...unreadIn(before, 'old'), ...unreadIn(after, 'new')];
  const electrical = !same.same || unread.length > 0;
  yield;
  const instrument = compareInstruments(before, after, match.renamed);
  // What a statement that can't be read would join is not known: nothing is said of what is heard, nor of the work.
  const isRead = !factsOf(before).unread.any && !factsOf(after).unread.any;
  const parts = compareParts(before, after, match).filter(({ what }) => isRead || what !== 'value');
  const isKnown = electrical && isRead;
  yield;
  const wires = compareWires(before, after, match, pairs);
  const build =
    wires.length > 0 || parts.some(({ what }) => !inNameOnly.has(what)) || instrument.some(({ name }) => !onPaper.has(name));
  yield;
  const heard = isKnown ? yield* heardSteps(before, after, match) : unheard;
  const aside = [asideOf(old.aside), asideOf(now.aside)] as const;
  const expectations = yield* expectationSteps(before, after, match);
  yield;
  const work = build && isRead ? yield* workSteps(before, after, match, pairs) : { cuts: [], steps: [] };
  const isOnlyTypes = before.isLibrary && after.isLibrary;
  return {
    version: 1,
    title: { before: before.title ?? '', after: after.title ?? '' },
    electrical,
    build,
    summary: unread.length > 0 ? incomplete(unread) : isOnlyTypes ? onlyTypes : summaryOf(electrical, build),
    unread,
    instrument,
    parts,
    wires,
    rework: isRead ? reworkOf(parts, wires) : [],
    lost: heard.lost,
    positions: heard.positions,
    controls: heard.controls,
    expectations,
    records: compareRecords(before, after, match.renamed),
    allows: compareAllows(before, after, aside, match),
    findings: compareFindings(old.findings, now.findings, { before: aside[0].findings, after: aside[1].findings }, match),
    ...work,
    notes: [...(same.note === undefined ? [] : [same.note]), ...heard.notes],
  };
}

type Heard = Pick<Change, 'positions' | 'controls' | 'lost' | 'notes'>;
const unheard: Heard = { positions: [], controls: [], lost: [], notes: [] };

function* heardSteps(before: AnalysedCircuit, after: AnalysedCircuit, match: Match): Steps<Heard> {
  const left = [...factsOf(before).leftOut(), ...factsOf(after).leftOut()];
  const positions = yield* comparePositions(before, after, match);
  const { changes: controls, notes } = yield* compareControls(before, after, match);
  return { positions, controls, lost: yield* lostSteps(before, after, match), notes: [...new Set(left), ...notes] };
}

function* workSteps(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  match: Match,
  pairs: WirePairs,
): Steps<Pick<Change, 'cuts' | 'steps'>> {
  const [old, now] = [buildOf(before), buildOf(after)];
  for (const build of [old, now]) yield* planSteps(build);
  const cuts = compareCuts(old, now, match, pairs);
  yield;
  return { cuts, steps: compareSteps(old, now, match) };
}

/** What a file of types does shows in the circuits that use it. */
const onlyTypes = 'neither file contains a circuit; compare the circuits that use them';

function summaryOf(electrical: boolean, build: boolean): string {
  if (electrical) return 'electrical change';
  return build ? 'no electrical change, but the build changes' : 'no electrical change';
}
