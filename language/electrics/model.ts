/** What electrics computes: results as plain data, named by the circuit's ids. */
import type { Arrangement, ElementId, LugId, ShaftId, SwitchId } from '../circuit/model.js';

/** One setting of all controls: a position index per switch, a rotation (0 to 10) per shaft, both by id. */
export interface Setting {
  readonly positions: readonly number[];
  readonly rotations: readonly number[];
}

/** Lugs folded into nets for one choice of switch positions. Nets are numbered 0 … count − 1. */
export interface Nets {
  readonly count: number;
  /** Net of each lug, by lug id. */
  readonly of: Int32Array;
  /** Net of the output's sleeve and tip; −1 where there is no jack. */
  readonly ground: number;
  readonly tip: number;
}

/** `cancelled` where a tenth of it is left at most (20 dB less), `partly` where half is left at most. */
export type Hum = 'cancelled' | 'partly' | 'present' | 'none';

/** What reaches the amplifier in one setting. */
export interface Sound {
  /** Canonical: members by name, whole pickups by their name alone, `mixed` where they are neither in series nor parallel; absent where silent. */
  readonly arrangement?: Arrangement;
  /** Canonical text: `parallel(bridge, neck)` or `silent`; for a network that is not series-parallel the coils with their shares, `mixed(neck 100%, bridge 40%)`. */
  readonly text: string;
  readonly silent: boolean;
  readonly hum: Hum;
  /** How much of the coils' hum is left, in dB of the sum of its magnitudes, −60 at least; null where there is none. */
  readonly humDb: number | null;
  /** Per coil that is heard: what it delivers at the amplifier at 100 Hz relative to its own voltage, with its sign for strings and for hum. */
  readonly heard: readonly {
    readonly coil: ElementId;
    readonly delivers: number;
    readonly string: 1 | -1;
    readonly hum: 1 | -1;
  }[];
}

/** A reading in ohms between two lugs; `ohm` null where the meter reads open or a value on the way is unknown. */
export interface MeterReading {
  readonly ohm: number | null;
  /** What a meter may show on a good instrument between 15 and 25 °C: tolerances, temperature and the meter itself, rounded outwards to its third digit. */
  readonly low: number | null;
  readonly high: number | null;
  /** True where there is no reading to give: a value written `?` is in it, or an amplifier stage. */
  readonly unknown: boolean;
  /** True where the limits rest on a tolerance that the text leaves out. */
  readonly assumed?: true;
  /** True where a pot in the reading is part way: how its taper runs, no pot says to a few percent, so the limits are indicative. */
  readonly indicative?: true;
  /** What is being read, in trade words, where it isn't simply the pickups: "only the volume track: a capacitor stands before it". */
  readonly note?: string;
  /** The elements that carry the meter's current. */
  readonly through: readonly ElementId[];
}

/** One row of the position table. */
export interface PositionRow {
  /** The contact of a jack at which this is heard: `output.tip`; empty where there is no jack. */
  readonly output: string;
  readonly setting: Setting;
  /** Switch name to position key, enumerated switches only. */
  readonly set: Readonly<Record<string, string>>;
  readonly label: string;
  readonly sound: Sound;
  readonly reads: MeterReading;
  /** Settings with the same number fold the same lugs together, and share `sound`, `reads` and `response`. */
  readonly group: number;
  /** True where peak, corner and level rest on something that the text doesn't give: see `isApproximate`. */
  readonly approximate: boolean;
  /** Peak, corner and level, where the table was asked for them. */
  readonly response?: ResponseSummary;
}

/** Every setting of the switches that do not rest, pots at rest. */
export interface Enumeration {
  readonly settings: readonly Setting[];
  /** Per setting, the number of its distinct nets (0 … groups − 1): equal numbers, equal nets wherever an element stands. */
  readonly group: Int32Array;
  readonly groups: number;
  /** What was not enumerated and why, a sentence each. */
  readonly leftOut: readonly string[];
  /** Where there are too many combinations to try them all. */
  readonly untried?: Untried;
}

/** How many combinations so many switches make, and the most that are tried. */
export interface Untried {
  readonly switches: number;
  readonly combinations: number;
  readonly limit: number;
}

export interface PositionTable {
  readonly rows: readonly PositionRow[];
  /** What was not enumerated and why, a sentence each. */
  readonly leftOut: readonly string[];
}

/** Complex response at one frequency. */
export interface ResponsePoint {
  readonly hz: number;
  /** Level against one unloaded pickup of output 100 %. −Infinity never: floored at −300. */
  readonly db: number;
  readonly deg: number;
}
export interface ResponseSummary {
  /** Resonant peak, `db` above the reference level; null where the response only falls. */
  readonly peak: { readonly hz: number; readonly db: number } | null;
  /** Upper frequency where the level is 3.01 dB below the reference level. */
  readonly cutoffHz: number | null;
  /** The reference: the median of the level from 80 Hz to 1.3 kHz. Null where the coils cancel, and where a value was rejected. */
  readonly levelDb: number | null;
  /** True where the coils cancel to less than a twentieth of what each delivers: peak, corner and level say nothing of a real instrument then. */
  readonly cancels?: true;
  /** Why there is nothing to tell, where the network could not be solved. */
  readonly problem?: string;
}
export interface Response extends ResponseSummary {
  readonly points: readonly ResponsePoint[];
}

/** What turning a shaft does, found by solving. */
export type ControlRole = 'volume' | 'tone' | 'bass-cut' | 'blend' | 'spread' | 'band' | 'mixed' | 'nothing' | 'unwired';
export interface ControlEffect {
  readonly shaft: ShaftId;
  readonly role: ControlRole;
  /** True where it works the wrong way round for its `turn`. */
  readonly backwards: boolean;
  /** Settings (as rows) in which it does something. */
  readonly actsIn: readonly Setting[];
  /** False where it was turned in some of the different positions only, because there are too many: then nothing is known of the others. */
  readonly isWhole: boolean;
  /** One sentence: what it does. */
  readonly says: string;
  /** Pickups silenced at 0 besides its own, by position. */
  readonly silences: readonly { readonly setting: Setting; readonly pickups: readonly string[] }[];
}

/** A loop in the ground network: the joints in it. */
export interface GroundLoop {
  readonly joints: readonly number[];
  readonly lugs: readonly LugId[];
}

/** A metal lug that is not joined to the sleeve in every setting. */
export interface Ungrounded {
  readonly lug: LugId;
  /** The settings in which it hangs free; every enumerated one where `always`. */
  readonly settings: readonly Setting[];
  readonly always: boolean;
}

export interface GroundNetwork {
  /** Lugs joined to the sleeve for good, through joints alone. */
  readonly lugs: readonly LugId[];
  readonly ungrounded: readonly Ungrounded[];
  /** One loop for each joint too many: wires, solder joints and screens. */
  readonly loops: readonly GroundLoop[];
  /** Loops that close only where metal touches metal: counted, not listed. */
  readonly touchLoops: number;
}

export type { SwitchId };
