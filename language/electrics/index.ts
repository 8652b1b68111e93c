/** Electrics: nets, positions, sound, meter, response, controls and ground of a circuit, by solving. */
import type { Arrangement, Circuit, ControlSetting, LugId, ShaftId, SwitchId } from '../circuit/model.js';
import type {
  ControlEffect,
  Enumeration,
  GroundNetwork,
  MeterReading,
  Nets,
  PositionTable,
  Response,
  ResponseSummary,
  Setting,
  Sound,
} from './model.js';

export type * from './model.js';

/** Lugs folded into nets for one choice of switch positions (an index per switch): joints and closed contacts only, never elements. */
export declare function nets(circuit: Circuit, positions: readonly number[]): Nets;

/** Switches at rest or in their first position, shafts at their rest. */
export declare function restingSetting(circuit: Circuit): Setting;
/** `base` (the resting setting where absent) with some controls moved. */
export declare function withSettings(circuit: Circuit, controls: readonly ControlSetting[], base?: Setting): Setting;
/** One switch moved. */
export declare function withPosition(setting: Setting, id: SwitchId, position: number): Setting;
/** One shaft turned, 0 to 10. */
export declare function withRotation(setting: Setting, id: ShaftId, rotation: number): Setting;
/** Every enumerated setting in which the named switches stand as said, with the named shafts turned. */
export declare function settingsMatching(circuit: Circuit, controls: readonly ControlSetting[]): readonly Setting[];
/** Switch name to position key, for JSON `set`; switches that rest are left out unless they are off their rest. */
export declare function settingKeys(circuit: Circuit, setting: Setting): Readonly<Record<string, string>>;
/** `selector "both", mute "on"`; pots only where they are off their rest. */
export declare function settingLabel(circuit: Circuit, setting: Setting): string;

/** Every combination of switches that do not rest, at most `limit` (4,096) of them; what is left out is said. */
export declare function enumerate(circuit: Circuit, options?: { readonly limit?: number }): Enumeration;

/** Signal path of one setting at any frequency; see `Solver`. */
export declare function createSolver(circuit: Circuit, folded: Nets, setting: Setting): Solver;
export interface Solver {
  /** Coils in the order of `transfers`, element ids. */
  readonly coils: readonly number[];
  /** Why nothing can be solved, with the net's lugs by name; absent where all is well. */
  readonly problem?: string;
  /** Voltage at the amplifier per volt of each coil (its finish positive against its start), at one frequency. */
  transfers(hz: number): { readonly re: Float64Array; readonly im: Float64Array; readonly problem?: string };
  /** All coils together, each with its output and its sign for the string. */
  output(hz: number): { readonly re: number; readonly im: number; readonly problem?: string };
}

/** What reaches the amplifier in one setting: coils heard, how they are joined, hum. */
export declare function describeSound(circuit: Circuit, setting: Setting): Sound;
/** Canonical text of an arrangement (`parallel(bridge, reversed neck)`). */
export declare function arrangementText(circuit: Circuit, arrangement: Arrangement): string;
/** True where two arrangements mean the same: order and global sign are free, shares count within ±7 points where `expected` states them. `sound` gives exact shares. */
export declare function sameArrangement(circuit: Circuit, expected: Arrangement, actual: Arrangement, sound?: Sound): boolean;

/** DC resistance between two lugs, batteries out. */
export declare function meter(circuit: Circuit, setting: Setting, a: LugId, b: LugId): MeterReading;
/** DC resistance between tip and sleeve of the output. */
export declare function readAtJack(circuit: Circuit, setting: Setting): MeterReading;

/** A row for each enumerated setting. `response` adds peak, corner and level to each row. */
export declare function positionTable(circuit: Circuit, options?: { readonly response?: boolean; readonly limit?: number }): PositionTable;

/** Level and phase at the amplifier over frequency, logarithmic points; peak and corner are of the whole 20 Hz to 20 kHz. */
export declare function response(
  circuit: Circuit,
  setting: Setting,
  options?: { readonly from?: number; readonly to?: number; readonly points?: number },
): Response;
/** Peak, corner and level alone. */
export declare function responseSummary(circuit: Circuit, setting: Setting): ResponseSummary;

/** What each shaft does, by solving. */
export declare function controlEffects(circuit: Circuit): readonly ControlEffect[];

/** Metal that hangs free, and loops in the ground network. */
export declare function groundNetwork(circuit: Circuit): GroundNetwork;

/** One setting as a plain SPICE deck that a general solver runs unchanged. */
export declare function spiceDeck(circuit: Circuit, setting: Setting, options?: { readonly from?: number; readonly to?: number; readonly points?: number }): string;
/** A name for each net that a person can read: `selector_A0`; ground is `0`. */
export declare function netNames(circuit: Circuit, folded: Nets): readonly string[];
