/** What is known of one circuit once it is asked for: the shape of the facts that the rules share. */
import type { AnalysedCircuit, LugId, ShaftId } from '../../circuit/model.js';
import type { ControlEffect, GroundNetwork, Pole, Setting, Untried } from '../../electrics/index.js';
import type { Group } from './group.js';
import type { UnreadParts } from './unread-parts.js';
import type { SignalAnalysis } from './signal/signal-analysis.js';
import type { Intended } from './signal/intended.js';
import type { Stage } from './supplies.js';
import type { Joined } from './wiring/joined.js';

/**
 * `none`: no jack. `unwired`: tip or sleeve is soldered to nothing. `swapped`: the ground hangs on the tip and the hot side on the sleeve.
 * `shorted`: nothing lies between tip and sleeve in any position, however the pots are turned.
 */
export type OutputFault = 'none' | 'unwired' | 'swapped' | 'shorted';

export interface Facts {
  readonly circuit: AnalysedCircuit;
  readonly joined: Joined;
  readonly signal: SignalAnalysis;
  readonly unread: UnreadParts;
  readonly intended: Intended;
  /** How many lugs of a class are more than splices and tags. */
  endings(classId: number): number;
  /** How many ends of elements a lug of an assembly leads to inside it. */
  endsInside(): (lug: LugId) => number;
  /** Every setting of the switches that do not rest, pots at rest. */
  settings(): readonly Setting[];
  /** False where there are too many combinations to try them all. */
  triedAll(): boolean;
  /** What was not tried and why, a sentence each. */
  leftOut(): readonly string[];
  /** How many combinations there are, where they are too many to try them all. */
  untried(): Untried | undefined;
  groups(): readonly Group[];
  poles(): readonly Pole[];
  stages(): readonly Stage[];
  effects(): readonly ControlEffect[];
  /** One of them, where the others need not be known. */
  effect(shaft: ShaftId): ControlEffect;
  ground(): GroundNetwork;
  /** Why no signal can reach the output, whatever the rest of the circuit does. One rule reports it, and the others then stay silent. */
  outputFault(): OutputFault | undefined;
  /** True where a fault of the structure is reported: silence, hanging coils and idle switches usually follow from it. */
  isBroken(): boolean;
}
