/** A capacitor whose outer foil is on the signal. Judged by the bench, beside the other things that have to fit. */
import { ruleInfo } from '../rule.js';

export const outerFoil = ruleInfo(
  'outer-foil',
  'info',
  'a capacitor whose outer foil is on the signal, its other lead on ground',
);
