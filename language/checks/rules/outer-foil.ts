/** A capacitor whose outer foil is on the signal. Judged by the workshop, beside the other things that have to fit. */
import type { Statement } from '../../source.js';
import { ruleInfo } from '../rule.js';

export interface OuterFoilClaim extends Statement {
  readonly subjects: { readonly capacitor: string; readonly at: string };
}

export const outerFoil = ruleInfo<OuterFoilClaim>(
  'outer-foil',
  'info',
  'a capacitor whose outer foil is on the signal, its other lead on ground',
  ({ subjects: { capacitor, at } }) =>
    `The outer foil of ${capacitor} is on the signal at ${at}, and its other lead is on ground`,
);
