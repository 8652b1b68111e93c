/** A group of settings that join the same lugs. */
import type { Nets, Setting } from '../../electrics/index.js';

/** Settings that fold the same lugs together, the first of them standing for all. */
export interface Group {
  readonly setting: Setting;
  readonly settings: readonly Setting[];
  readonly folded: Nets;
}
