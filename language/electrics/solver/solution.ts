/** What solving a system at some frequencies gives. */
import type { Rows } from '../../numerics/index.js';

/** x by unknown: `re[u * count + f]` at frequency `f` of the block that was asked for. */
export interface Solution {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly count: number;
  /** Admittance of each winding, `w * count + f`. */
  readonly admittance: Rows;
  /** What could not be solved at some frequency, naming the net; x is nothing there. */
  readonly problem?: string;
}
