/** A bushing or a shaft that is too short for its plate. Judged by the workshop, which knows where things lie. */
import type { Figure } from '../../claim.js';
import type { Statement } from '../../source.js';
import { millimetres } from '../facts/amounts.js';
import { ruleInfo } from '../rule.js';

export type ShortBushingClaim = Statement &
  (
    | {
        readonly kind: 'bushing';
        readonly subjects: { readonly part: string; readonly plate: string };
        readonly figures: { readonly length: Figure; readonly plate: Figure; readonly nut: Figure };
      }
    | {
        readonly kind: 'shaft';
        readonly subjects: { readonly part: string };
        readonly figures: { readonly left: Figure; readonly knob: Figure };
      }
  );

export const shortBushing = ruleInfo<ShortBushingClaim>(
  'short-bushing',
  'warning',
  'a bushing or a shaft that is too short for its plate',
  (claim) => {
    if (claim.kind === 'shaft') {
      const { left, knob } = claim.figures;
      return `The shaft of ${claim.subjects.part} projects ${millimetres(left.value)} beyond its nut; a knob needs ${millimetres(knob.value)}`;
    }
    const { length, plate, nut } = claim.figures;
    return `The bushing of ${claim.subjects.part} is ${millimetres(length.value)} long; ${millimetres(plate.value)} of ${claim.subjects.plate} and ${millimetres(nut.value)} of washer and nut need ${millimetres(plate.value + nut.value)}`;
  },
);
