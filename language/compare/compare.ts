/** The whole comparison in one place: match the parts, then hold wires, behaviour, expectations, findings and work against each other. */
import type { Change, Side } from './change.js';
import { compareControls } from './controls.js';
import { compareElectrically } from './electrical.js';
import { compareExpectations } from './expectations.js';
import { compareFindings } from './findings.js';
import { compareInstruments } from './instrument.js';
import { matchCircuits } from './match.js';
import { pairWires } from './pair-wires.js';
import { compareParts } from './parts.js';
import { comparePositions } from './positions.js';
import { compareWires } from './wires.js';
import { compareCuts, compareSteps } from './work.js';
import { factsOf } from '../checks/index.js';

/** What in the instrument's own words is no work at the bench. */
const onPaper = new Set(['title', 'cable', 'input']);
/** What about a part is no work at the bench. */
const inNameOnly = new Set(['name', 'position']);

/** What changed from one circuit to another: a pure function of both and of what is found in them. Never throws for circuits that lowering made. */
export function compare({ circuit: before, findings: old }: Side, { circuit: after, findings: now }: Side): Change {
  const match = matchCircuits(before, after);
  const pairs = pairWires(before, after, match);
  const same = compareElectrically(before, after, match);
  const electrical = !same.same;
  const instrument = compareInstruments(before, after, match.renamed);
  const parts = compareParts(before, after, match);
  const wires = compareWires(before, after, match, pairs);
  const build =
    wires.length > 0 || parts.some(({ what }) => !inNameOnly.has(what)) || instrument.some(({ name }) => !onPaper.has(name));
  const left = [...factsOf(before).leftOut(), ...factsOf(after).leftOut()];
  return {
    version: 1,
    title: { before: before.title ?? '', after: after.title ?? '' },
    electrical,
    build,
    summary: before.isLibrary && after.isLibrary ? onlyTypes : summaryOf(electrical, build),
    instrument,
    parts,
    wires,
    positions: electrical ? comparePositions(before, after, match) : [],
    controls: electrical ? compareControls(before, after, match) : [],
    expectations: compareExpectations(before, after, match),
    findings: compareFindings(old, now, match, electrical),
    cuts: build ? compareCuts(before, after, match, pairs) : [],
    steps: build ? compareSteps(before, after, match) : [],
    notes: [...(same.note === undefined ? [] : [same.note]), ...(electrical ? new Set(left) : [])],
  };
}

/** What a file of types does shows in the circuits that use it. */
const onlyTypes = 'no circuit in either file; compare the circuits that use it';

function summaryOf(electrical: boolean, build: boolean): string {
  if (electrical) return 'electrical change';
  return build ? 'no electrical change, but the build changes' : 'no electrical change';
}
