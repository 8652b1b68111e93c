/** Outputs of two circuits, paired: a contact of a jack that is in both, or in one of them alone. */
import type { AnalysedCircuit, LugId } from '../../circuit/model.js';
import { heardAt, outputLabel, outputsOf } from '../../electrics/index.js';
import type { Match } from '../match/match.js';

/** Each circuit as heard at this output; undefined where a circuit doesn't have that output. */
export interface OutputPair {
  readonly before: AnalysedCircuit | undefined;
  readonly after: AnalysedCircuit | undefined;
  /** `jack.tip`, as the circuit that has it now calls it. */
  readonly output: string;
  /** `at jack.tip` where there are several, else empty. */
  readonly place: string;
}

/**
 * A contact that a pickup reaches in one circuit is compared with its like in the other, reached or not. The usual outputs are paired with each
 * other where neither has its like.
 */
export function outputPairs(before: AnalysedCircuit, after: AnalysedCircuit, { lugs }: Match): readonly OutputPair[] {
  const [was, is] = [before.output?.tip, after.output?.tip];
  const isReplaced = (was === undefined || !lugs.to.has(was)) && (is === undefined || !lugs.from.has(is));
  const [olds, news] = [before, after].map((circuit) => outputsOf(circuit).map(({ tip }) => tip)) as [LugId[], LugId[]];
  const known = new Set([...news, ...olds.flatMap((tip) => lugs.to.get(tip) ?? [])]);
  const gone = olds.filter((tip) => !lugs.to.has(tip));
  const tips: (readonly [LugId | undefined, LugId | undefined])[] = [
    ...(isReplaced ? [[was, is] as const] : []),
    ...[...known].filter((tip) => !isReplaced || tip !== is).map((tip) => [lugs.from.get(tip), tip] as const),
    ...gone.filter((tip) => !isReplaced || tip !== was).map((tip) => [tip, undefined] as const),
  ];
  return tips.map(([old, now]): OutputPair => {
    const isUsual = isReplaced && old === was && now === is;
    const sides = {
      before: old === undefined && !isUsual ? undefined : heardAt(before, old),
      after: now === undefined && !isUsual ? undefined : heardAt(after, now),
    };
    const output = outputLabel(sides.after ?? sides.before ?? after);
    return { ...sides, output, place: tips.length > 1 ? `at ${output}` : '' };
  });
}
