/** Values with their units. */
import type { ValueUnit } from '../grammar/index.js';
import type { SourceRange } from '../source.js';

/** What a value is counted in. */
export type Unit = ValueUnit;

/** A value in SI base units (percent as 10 for 10 %, awg as the gauge number). */
export interface Quantity {
  readonly value: number;
  readonly unit: Unit;
  /** Relative tolerance, 0.2 for ±20 %. */
  readonly tolerance: number;
  /** True where the text gives no tolerance and the usual one is taken. */
  readonly assumed?: boolean;
  /** False for `?`: `value` is then the type's default, good for a picture, not for a reading. */
  readonly known: boolean;
  /** True where what was written can't be right, and was reported: `value` is only good for a picture, as with `?`. */
  readonly rejected?: boolean;
  /** Where it was written; absent where it is the type's default. */
  readonly range?: SourceRange;
}
