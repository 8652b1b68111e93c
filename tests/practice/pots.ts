/** Pots as controls are made of them: plain, on a push-pull switch that is there already, or one of two on a stack. */
import { addPart, lug, type Draft, type Lug, type Part } from './draft.js';
import type { Role } from './names.js';

/** A track by what its lugs are for, whichever way the instrument's pots turn. */
export interface Pot {
  readonly part: Part;
  /** The lug that the wiper reaches at 0, and at 10. */
  readonly low: Lug;
  readonly wiper: Lug;
  readonly high: Lug;
}

const values = ['250k', '500k'] as const;
export type Ohms = (typeof values)[number];

/** `250k` for single-coils, `500k` for the others, as most do. */
export function usualOhms({ dice, families }: Draft): Ohms {
  const isHigh = families.has('humbucker') || families.has('humbucker-4');
  return dice.percent(80) ? (isHigh ? '500k' : '250k') : dice.pick(values);
}

export function addPot(draft: Draft, role: Role, of = '', options: { readonly isNoLoad?: boolean } = {}): Pot {
  const pull = options.isNoLoad === true ? undefined : draft.pulls.shift();
  if (pull !== undefined) {
    draft.names.release(pull.name);
    pull.name = draft.names.give(role, of);
    return track(draft, pull, '');
  }
  const type = options.isNoLoad === true ? 'pot-no-load' : 'pot';
  const part = addPart(draft, role, { type, values: valuesOf(draft) }, of);
  draft.metal.push(lug(part, 'case'));
  return track(draft, part, '');
}

/** Two on one bushing. */
export function addStack(draft: Draft, of: string): readonly [Pot, Pot] {
  const part = addPart(draft, 'stack', { type: 'pot-concentric', values: valuesOf(draft) }, of);
  draft.metal.push(lug(part, 'case'));
  draft.families.add('stack');
  return [track(draft, part, 'a'), track(draft, part, 'b')];
}

export function track({ isLeft }: Draft, part: Part, letter: string): Pot {
  const [low, high] = isLeft ? ['3', '1'] : ['1', '3'];
  return { part, low: lug(part, low + letter), wiper: lug(part, `2${letter}`), high: lug(part, high + letter) };
}

/** `250k audio`, or as printed on the pot. */
export function valuesOf(draft: Draft): readonly string[] {
  const ohms = usualOhms(draft);
  const isAudio = draft.dice.percent(75);
  if (draft.dice.percent(20)) return [`${isAudio ? 'A' : 'B'}${ohms.toUpperCase()}`];
  return [ohms, isAudio ? 'audio' : 'linear'];
}
