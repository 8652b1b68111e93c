/** The solder plan: every stage with its steps in order, each with the reason why it stands there. */
import { derive, deriveSteps, steppedDerivation } from '../../circuit/index.js';
import type { Steps } from '../../steps.js';
import { buildOf, runSteps, type Build } from '../build.js';
import { assign, type Assignment } from './assign.js';
import { closeStage, isStringSpot, mountCavity, mountPlate, spliceSteps, threadStage, type RoughStep } from './order-frame.js';
import type { Plan, Stage, Step } from './plan.js';
import { benchAreas, bodyCavities } from './stages.js';
import { freshProgress, solderSteps } from './order-steps.js';
import { testSteps } from './stage-tests.js';
import type { End } from './work.js';
import { itemName } from '../wording.js';
import { listed } from '../../words.js';

interface RoughStage extends Omit<Stage, 'steps' | 'tests'> {
  readonly steps: readonly RoughStep[];
}

/** The plan of a build: the rules of `order-rules.ts` hold in it. Where the text has faults it orders what can be read. */
export function solderPlan({ circuit }: Build): Plan {
  return derive(circuit, plan);
}

/** The same in steps of one area or one reading each. */
export function planSteps({ circuit }: Build): Steps<Plan> {
  return deriveSteps(circuit, plan);
}

const plan = steppedDerivation(['text'], (circuit): Steps<Plan> => makePlan(buildOf(circuit)));

function* makePlan(build: Build): Steps<Plan> {
  yield* runSteps(build);
  const { items, spot } = build.work;
  yield;
  const assignment = assign(build);
  yield;
  const ends = items.flatMap((item) => item.ends);
  const isLaid = (end: End): boolean => isStringSpot(build, spot(end.spot));
  const progress = freshProgress();
  const rough: RoughStage[] = [];
  const splices = spliceSteps(build);
  if (splices.length > 0) rough.push({ kind: 'bench', title: 'Short leads, at the bench', steps: splices });
  const onPickups = ends.filter((end) => assignment.phaseOf(end) === 'bench' && spot(end.spot).area.kind === 'pickup');
  const pickups = solderSteps(build, onPickups, assignment, { begun: new Map(), progress });
  if (pickups.length > 0) rough.push({ kind: 'bench', title: 'Pickups, at the bench', steps: pickups });
  for (const area of benchAreas(build)) {
    const here = ends.filter((end) => assignment.phaseOf(end) === 'bench' && spot(end.spot).area.key === area.key);
    const begun = attachedBefore(rough);
    const steps = [...mountPlate(build, area), ...solderSteps(build, here, assignment, { begun, progress })];
    const title = area.kind === 'plate' ? `Plate ${area.name}, at the bench` : 'Controls, at the bench';
    if (steps.length > 0) rough.push({ kind: 'bench', title, area, steps });
    yield;
  }
  const thread = threadStage(build, attachedBefore(rough));
  if (thread.length > 0) rough.push({ kind: 'thread', title: 'Through the body', steps: thread });
  for (const cavity of bodyCavities(build)) {
    const here = ends.filter(
      (end) => assignment.phaseOf(end) === 'body' && spot(end.spot).area.cavity === cavity && !isLaid(end),
    );
    const steps = [
      ...mountCavity(build, cavity),
      ...solderSteps(build, here, assignment, { begun: attachedBefore(rough), progress }),
    ];
    const title = cavity === undefined ? 'In the body' : `Cavity ${cavity}`;
    if (steps.length > 0) rough.push({ kind: 'body', title, ...(cavity === undefined ? {} : { cavity }), steps });
    yield;
  }
  rough.push({ kind: 'hanging', title: 'Test with the plates off the body', steps: [] });
  rough.push({ kind: 'close', title: 'Close', steps: closeStage(build) });
  return {
    stages: yield* testSteps(build, numbered(rough)),
    reheats: assignment.reheats,
    bound: assignment.bound,
    reheated: assignment.reheated.map((spot) => whyTwice(build, assignment, spot)),
  };
}

/** Items that are cut, or of which an end is hooked or soldered already. */
function attachedBefore(stages: readonly RoughStage[]): Map<number, 'cut' | 'on'> {
  const begun = new Map<number, 'cut' | 'on'>();
  for (const { steps } of stages)
    for (const { item, kind } of steps) {
      if (item === undefined || kind === 'heat' || kind === 'splice') continue;
      if (kind !== 'cut') begun.set(item, 'on');
      else if (!begun.has(item)) begun.set(item, 'cut');
    }
  return begun;
}

function numbered(stages: readonly RoughStage[]): Stage[] {
  let number = 0;
  const used = new Map<string, number>();
  return stages.map((stage) => ({
    ...stage,
    tests: [],
    steps: stage.steps.map((step): Step => {
      const times = (used.get(step.key) ?? 0) + 1;
      used.set(step.key, times);
      return { ...step, number: ++number, key: times === 1 ? step.key : `${step.key} #${times}` };
    }),
  }));
}

function whyTwice(build: Build, assignment: Assignment, spot: number): string {
  const { work } = build;
  const ends = work.endsAt(spot);
  const names = (phase: 'bench' | 'body'): string =>
    listed(ends.filter((end) => assignment.phaseOf(end) === phase).map((end) => itemName(build, work.item(end.item))));
  return `${build.label(work.spot(spot).lug)} is heated in both stages: ${names('bench')} at the bench, ${names('body')} in the body`;
}
