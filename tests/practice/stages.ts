/** What one stage of a circuit hands to the next. */
import type { Node, Part, Turned } from './draft.js';
import type { Source } from './pickups.js';
import type { Pole } from './switches.js';
import type { Sound } from './voice.js';

/** What arrives at the selecting switch: a source, behind its own controls where it has some. */
export interface Input {
  readonly source: Source;
  readonly hot: Node;
  readonly sounds: Sound;
}

export interface Selected {
  readonly hot: Node;
  readonly sounds: Sound;
  readonly selecting: readonly Part[];
  readonly states: readonly ReadonlyMap<Part, number>[];
  /** What sounds with a blend at one of its ends, by the setting as a line names it. */
  readonly turned?: readonly Turned[];
  /** A pole of the switch that nothing is joined to yet, a throw for each pickup. */
  readonly spare?: Pole;
}
