/** How much a turned pot differs between two circuits, beyond what the position itself does. */
import type { Steps } from '../../steps.js';
import type { ResponseSummary } from '../../electrics/index.js';
import type { Heard } from '../change.js';
import { compareResponse, responseAt, solveResponses, type At } from './heard.js';

/** The least that can be heard: a share of hertz and a step in decibels (common figures for a just noticeable difference of tone and of level). */
const least = { share: 0.02, decibel: 0.5 };
/** A score from here on is reported: the difference is at least that. */
export const loudEnough = 1;
/** Below this, in decibels, nothing is left to be heard but the level; below the floor a level is silence. */
const faint = -50;
const floor = -60;
/** Hertz; a corner beyond what is computed counts as there. */
const top = 20_000;
/** A guitar loudspeaker radiates little above this (common practice), so that a peak or a corner beyond it is no audible difference. Hertz. */
const loudspeaker = 6_000;

export interface TurnedDifference {
  /** The largest difference as a multiple of the least that can be heard. */
  readonly score: number;
  /** What differs by at least so much. */
  readonly heard: Heard;
}

/** `was` and `is` with all pots at rest; `turned` both with pots turned alike. In steps of one solved response each. */
export function* turnedDifference(was: At, is: At, turned: readonly [At, At]): Steps<TurnedDifference> {
  yield* solveResponses(was, is);
  yield* solveResponses(...turned);
  const [rest, now] = [steps(responseAt(was), responseAt(is)), steps(responseAt(turned[0]), responseAt(turned[1]))];
  const scoreOf = (name: string): number => Math.abs((now.get(name) ?? 0) - (rest.get(name) ?? 0)) / unit(name);
  const heard = withHeight(compareResponse(turned[0], turned[1], least), turned);
  // A peak that only one version has counts by its height.
  const scores = Object.keys(heard).map(
    (name) => [name, scoreOf(name === 'peakHz' && !now.has(name) ? 'peakDb' : name)] as const,
  );
  const kept = new Map(scores.filter(([, score]) => score >= loudEnough));
  return {
    score: Math.max(0, ...kept.values()),
    heard: Object.fromEntries(Object.entries(heard).filter(([name]) => kept.has(name))),
  };
}

/** With the height of a peak that one of the two has not. */
function withHeight(heard: Heard, [was, is]: readonly [At, At]): Heard {
  const peakDb = { before: responseAt(was).peak?.db ?? null, after: responseAt(is).peak?.db ?? null };
  return (peakDb.before === null) === (peakDb.after === null) ? heard : { ...heard, peakDb };
}

function unit(name: string): number {
  return name.endsWith('Hz') ? Math.log(1 + least.share) : least.decibel;
}

/** How each figure differs: hertz by the logarithm of their ratio, levels in decibels; by the names that `Heard` has. */
function steps(old: ResponseSummary, now: ResponseSummary): ReadonlyMap<string, number> {
  if (old.levelDb === null || now.levelDb === null) return new Map();
  const level = ['levelDb', Math.max(now.levelDb, floor) - Math.max(old.levelDb, floor)] as const;
  if (Math.min(old.levelDb, now.levelDb) < faint) return new Map([level]);
  const [peakWas, peakIs] = [old.peak?.hz ?? top, now.peak?.hz ?? top];
  const [cornerWas, cornerIs] = [old.cutoffHz ?? top, now.cutoffHz ?? top];
  return new Map<string, number>([
    level,
    ...(Math.min(peakWas, peakIs) > loudspeaker
      ? []
      : [
          ['peakDb', (now.peak?.db ?? 0) - (old.peak?.db ?? 0)] as const,
          ...(old.peak === null || now.peak === null ? [] : [['peakHz', Math.log(peakIs / peakWas)] as const]),
        ]),
    ...(Math.min(cornerWas, cornerIs) > loudspeaker ? [] : [['cutoffHz', Math.log(cornerIs / cornerWas)] as const]),
  ]);
}
