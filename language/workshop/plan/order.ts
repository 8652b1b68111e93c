/** The solder plan: every stage with its steps in order, each with the reason why it stands there. */
import { derive, deriveSteps, steppedDerivation, type AnalysedCircuit, listed } from '../../circuit/index.js';
import { lugLabel, partById } from '../../circuit/model.js';
import type { Steps } from '../../steps.js';
import { assign, type Assignment } from './assign.js';
import { closeStage, isStringSpot, mountCavity, mountPlate, threadStage, type RoughStep } from './order-frame.js';
import type { Plan, Stage, Step } from './plan.js';
import { benchAreas, bodyCavities } from './stages.js';
import { solderSteps } from './order-steps.js';
import { runSteps } from '../places/runs.js';
import { testSteps } from './stage-tests.js';
import { workOf, type End } from './work.js';

interface RoughStage extends Omit<Stage, 'steps' | 'tests'> {
  readonly steps: readonly RoughStep[];
}

/** The plan of a circuit: the rules of `order-rules.ts` hold in it. Plans of circuits with faults order what can be read. */
export function solderPlan(circuit: AnalysedCircuit): Plan {
  return derive(circuit, plan);
}

/** The same in steps of one area or one reading each. */
export function planSteps(circuit: AnalysedCircuit): Steps<Plan> {
  return deriveSteps(circuit, plan);
}

const plan = steppedDerivation(['text'], makePlan);

function* makePlan(circuit: AnalysedCircuit): Steps<Plan> {
  yield* runSteps(circuit);
  const { items, spot } = workOf(circuit);
  yield;
  const assignment = assign(circuit);
  yield;
  const ends = items.flatMap((item) => item.ends);
  const isLaid = (end: End): boolean => isStringSpot(circuit, spot(end.spot));
  const rough: RoughStage[] = [];
  for (const area of benchAreas(circuit)) {
    const here = ends.filter((end) => assignment.phaseOf(end) === 'bench' && spot(end.spot).area.key === area.key);
    const steps = [...mountPlate(circuit, area), ...solderSteps(circuit, here, assignment, new Map())];
    const title = area.kind === 'plate' ? `Plate ${area.name}, at the bench` : 'Controls, at the bench';
    if (steps.length > 0) rough.push({ kind: 'bench', title, area, steps });
    yield;
  }
  const thread = threadStage(circuit, attachedBefore(rough));
  if (thread.length > 0) rough.push({ kind: 'thread', title: 'Through the body', steps: thread });
  for (const cavity of bodyCavities(circuit)) {
    const here = ends.filter(
      (end) => assignment.phaseOf(end) === 'body' && spot(end.spot).area.cavity === cavity && !isLaid(end),
    );
    const steps = [...mountCavity(circuit, cavity), ...solderSteps(circuit, here, assignment, attachedBefore(rough))];
    const title = cavity === undefined ? 'In the body' : `Cavity ${cavity}`;
    if (steps.length > 0) rough.push({ kind: 'body', title, ...(cavity === undefined ? {} : { cavity }), steps });
    yield;
  }
  rough.push({ kind: 'hanging', title: 'Test with the plates off the body', steps: [] });
  rough.push({ kind: 'close', title: 'Close', steps: closeStage(circuit) });
  return {
    stages: yield* testSteps(circuit, numbered(rough)),
    reheats: assignment.reheats,
    bound: assignment.bound,
    reheated: assignment.reheated.map((spot) => whyTwice(circuit, assignment, spot)),
  };
}

/** Items that are cut, or of which an end is hooked or soldered already. */
function attachedBefore(stages: readonly RoughStage[]): Map<number, 'cut' | 'on'> {
  const begun = new Map<number, 'cut' | 'on'>();
  for (const { steps } of stages)
    for (const { item, kind } of steps) {
      if (item === undefined || kind === 'heat') continue;
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

function whyTwice(circuit: AnalysedCircuit, assignment: Assignment, spot: number): string {
  const work = workOf(circuit);
  const ends = work.endsAt(spot);
  const names = (phase: 'bench' | 'body'): string =>
    listed(ends.filter((end) => assignment.phaseOf(end) === phase).map((end) => itemName(circuit, end)));
  return `${lugLabel(circuit, work.spot(spot).lug)} is heated twice: ${names('bench')} at the bench, ${names('body')} in the body`;
}

function itemName(circuit: AnalysedCircuit, end: End): string {
  const item = workOf(circuit).item(end.item);
  if (item.run !== undefined) return item.run.mark;
  return item.part === undefined ? lugLabel(circuit, end.lug) : partById(circuit, item.part).name;
}
