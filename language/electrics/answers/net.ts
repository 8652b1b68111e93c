/** What a lug is joined to in one setting, and what an ohmmeter reads from there to ground. */
import type { AnalysedCircuit, LugId } from '../../circuit/model.js';
import { meter } from '../meter.js';
import type { MeterReading, Setting } from '../model.js';
import { netNames } from '../network/net-names.js';
import { netOf, nets } from '../network/nets.js';

export interface NetAnswer {
  /** The net's readable name, as in a deck; `0` for ground. */
  readonly name: string;
  /** All its lugs, in order of declaration. */
  readonly lugs: readonly LugId[];
  readonly isGround: boolean;
  /** True for the net of the jack's tip. */
  readonly isOutput: boolean;
  /** From the lug to the sleeve; absent where there is no jack. */
  readonly toGround?: MeterReading;
}

/** The net of a lug in one setting: its members, and its DC resistance to ground. */
export function netAnswer(circuit: AnalysedCircuit, setting: Setting, lug: LugId): NetAnswer {
  const folded = nets(circuit, setting.positions);
  const net = netOf(folded, lug);
  return {
    name: netNames(circuit, folded)[net] ?? '?',
    lugs: circuit.lugs.filter((other) => folded.of[other.id] === net).map((other) => other.id),
    isGround: net === folded.ground,
    isOutput: net === folded.tip,
    ...(circuit.output === undefined ? {} : { toGround: meter(circuit, setting, lug, circuit.output.sleeve) }),
  };
}
