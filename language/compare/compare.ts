/** The whole comparison in one place: match the parts, then hold wires, behaviour, expectations, findings and work against each other. */
import { finished, type Steps } from '../steps.js';
import type { Change, Side } from './change.js';
import { compareControls } from './controls.js';
import { electricalSteps } from './electrical.js';
import { expectationSteps } from './expectations.js';
import { compareFindings } from './findings.js';
import { compareInstruments } from './instrument.js';
import { matchCircuits } from './match.js';
import { pairWires } from './pair-wires.js';
import { compareParts } from './parts.js';
import { comparePositions } from './positions.js';
import { compareWires } from './wires.js';
import { compareCuts, compareSteps } from './work.js';
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
export function* changeSteps({ circuit: before, findings: old }: Side, { circuit: after, findings: now }: Side): Steps<Change> {
  const match = matchCircuits(before, after);
  yield;
  const pairs = pairWires(before, after, match);
  yield;
  const same = yield* electricalSteps(before, after, match);
  const electrical = !same.same;
  yield;
  const instrument = compareInstruments(before, after, match.renamed);
  const parts = compareParts(before, after, match);
  yield;
  const wires = compareWires(before, after, match, pairs);
  const build =
    wires.length > 0 || parts.some(({ what }) => !inNameOnly.has(what)) || instrument.some(({ name }) => !onPaper.has(name));
  const left = [...factsOf(before).leftOut(), ...factsOf(after).leftOut()];
  yield;
  const positions = electrical ? yield* comparePositions(before, after, match) : [];
  const controls = electrical ? yield* compareControls(before, after, match) : [];
  const expectations = yield* expectationSteps(before, after, match);
  yield;
  for (const circuit of build ? [before, after] : []) yield* planSteps(buildOf(circuit));
  const cuts = build ? compareCuts(buildOf(before), buildOf(after), match, pairs) : [];
  yield;
  const steps = build ? compareSteps(buildOf(before), buildOf(after), match) : [];
  yield;
  return {
    version: 1,
    title: { before: before.title ?? '', after: after.title ?? '' },
    electrical,
    build,
    summary: before.isLibrary && after.isLibrary ? onlyTypes : summaryOf(electrical, build),
    instrument,
    parts,
    wires,
    positions,
    controls,
    expectations,
    findings: compareFindings(old, now, match),
    cuts,
    steps,
    notes: [...(same.note === undefined ? [] : [same.note]), ...(electrical ? new Set(left) : [])],
  };
}

/** What a file of types does shows in the circuits that use it. */
const onlyTypes = 'neither file contains a circuit; compare the circuits that use them';

function summaryOf(electrical: boolean, build: boolean): string {
  if (electrical) return 'electrical change';
  return build ? 'no electrical change, but the build changes' : 'no electrical change';
}
