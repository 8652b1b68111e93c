/** The circuit as far as it is soldered after each stage. */
import { altered, type AnalysedCircuit, type Joint } from '../../circuit/model.js';
import type { Build } from '../build.js';
import type { Stage } from './plan.js';
import type { End } from './work.js';

/** Each stage with the circuit that has the joints done at its end. Ids of parts and lugs are those of the whole. */
export function builtAfter(
  build: Build,
  stages: readonly Stage[],
): readonly { readonly stage: Stage; readonly built: AnalysedCircuit }[] {
  const { items } = build.work;
  const attached = new Set<End>();
  const soldered = new Set<End>();
  const mounted = new Set<string>();
  return stages.map((stage) => {
    for (const step of stage.steps) {
      if (step.kind === 'mount' && stage.area?.kind === 'plate') mounted.add(stage.area.name);
      for (const end of step.ends ?? []) attached.add(end);
      if (step.kind === 'lay') for (const end of attached) if (end.spot === step.spot) soldered.add(end);
      for (const end of step.soldered ?? []) soldered.add(end);
    }
    const done = new Set<number>();
    for (const item of items) {
      for (const joint of item.joints) {
        const ends = item.ends.filter((end) => end.lug === joint.a || end.lug === joint.b);
        if (ends.length > 0 && ends.every((end) => soldered.has(end))) done.add(joint.id);
      }
    }
    const isClosed = stage.kind === 'close';
    const built = partial(
      build,
      (joint) => done.has(joint.id) || joint.kind === 'inside' || touches(build, joint, mounted, isClosed),
    );
    return { stage, built };
  });
}

/** Metal touches once the part is fixed; a plate touches its cavity's paint once it is screwed down. */
function touches(build: Build, joint: Joint, mounted: ReadonlySet<string>, isClosed: boolean): boolean {
  if (joint.kind !== 'touch') return false;
  const parts = [joint.a, joint.b].map((lug) => build.partAt(lug));
  if (parts.some(({ family }) => family === 'cavity')) return isClosed;
  return parts.some((part) => part.family === 'plate' && mounted.has(part.name));
}

/** A circuit with some of its joints; their ids stay, so they can be found in the whole. */
function partial(build: Build, has: (joint: Joint) => boolean): AnalysedCircuit {
  return altered(build.circuit, { joints: build.joints.filter(has) });
}
