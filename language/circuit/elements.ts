/** What parts are made of, for the current: windings, resistances, capacitances, batteries, diodes, tracks, amplifier stages. */
import type { ElementId, LugId, PartId, ShaftId } from './ids.js';
import type { Quantity } from './unit.js';

interface ElementBase {
  readonly id: ElementId;
  readonly part: PartId;
  /** Name inside the part (`north`, `main`); empty where the part is its only element. */
  readonly name: string;
  readonly a: LugId;
  readonly b: LugId;
}

/** A winding: EMF and resistance and inductance in series, `capacitance` across both, an optional loss resistance across the inductance, which may itself be
 * lossy (`coil/core.ts`). `a` is its start, `b` its finish: with winding · magnet = +1 the string drives b positive against a. */
export interface Coil extends ElementBase {
  readonly kind: 'coil';
  /** True for a piezo film or crystal: its EMF is in series with `capacitance`, it has neither resistance nor inductance and picks up no hum of a magnetic field. */
  readonly piezo?: true;
  readonly resistance: Quantity;
  readonly inductance: Quantity;
  readonly capacitance: Quantity;
  readonly loss?: Quantity;
  /** Share of the inductance that eddy currents short, 0 to 1, and the resistance of their path; both or none. */
  readonly eddyInductance?: number;
  readonly eddyResistance?: Quantity;
  /** n of the lossy inductor K (jω)^n, 0.5 to 1. */
  readonly lossExponent?: number;
  /** Share of the source that the pickup's cover takes away at high frequencies, 0 to 1. */
  readonly coverShading?: number;
  /** Voltage of this coil against a pickup of output 100 % (so 0.5 for one half of a humbucker). */
  readonly output: number;
  readonly winding: 1 | -1;
  readonly magnet: 1 | -1;
  /** Coupling factor to the pickup's other coil, where given: −1 to 1, both excluded, positive where they aid each other in series, in phase. */
  readonly coupling?: number;
  /** Turns of this winding, where given: they weigh the hum that it picks up. */
  readonly turns?: number;
}
export interface Resistor extends ElementBase {
  readonly kind: 'resistor';
  readonly resistance: Quantity;
}
export interface Capacitor extends ElementBase {
  readonly kind: 'capacitor';
  readonly capacitance: Quantity;
}
export interface Inductor extends ElementBase {
  readonly kind: 'inductor';
  readonly inductance: Quantity;
  readonly resistance?: Quantity;
  /** Coupling factor to the part's other winding, of a transformer: −1 to 1, both excluded. */
  readonly coupling?: number;
}
/** A short for signals; out of the instrument when ohms are read. `a` is plus. */
export interface Battery extends ElementBase {
  readonly kind: 'battery';
  readonly voltage: Quantity;
}
/** A law, or `measured` by points. */
export type Taper = 'linear' | 'audio' | 'reverse-audio' | 'measured';
/** A measured point of a taper: the share of the travel from `a`'s end, and that of the resistance from `a` to the wiper, 0 to 1 each. */
export interface TaperPoint {
  readonly travel: number;
  readonly share: number;
}
/** A pot's track from `a` (lug 1) to `b` (lug 3) with its wiper. */
export interface Track extends ElementBase {
  readonly kind: 'track';
  readonly wiper: LugId;
  readonly resistance: Quantity;
  readonly taper: Taper;
  /** Share of the resistance from `a` at mid rotation, for the audio tapers (0.15 where nothing is said). */
  readonly mid: number;
  /** Of a measured taper: from 0 and 0 to 1 and 1, travels rising, shares never falling. */
  readonly points?: readonly TaperPoint[];
  readonly shaft: ShaftId;
  /** Rotations (0 to 10) at which the wiper is at `a` and at `b`; beyond them it stays there. 0 and 10 for a usual pot, 10 and 0 turned left. */
  readonly empty: number;
  readonly full: number;
  /** At `full` the wiper leaves the track for this lug, which below joins nothing; `b` then is an inner end. */
  readonly leavesTo?: LugId;
  /** Resistance left at each end of the travel, ohm. */
  readonly end: number;
}
/**
 * Something that conducts from `a` (anode) to `b` (cathode) alone, and backwards from `breakdown` on. For signals, which are smaller than its forward
 * voltage, it is open, but where a battery drives current through it.
 */
export interface Diode extends ElementBase {
  readonly kind: 'diode';
  /** Volts across it while it conducts. */
  readonly forward: Quantity;
  /** Volts at which a Zener diode conducts backwards. */
  readonly breakdown?: Quantity;
  /** True where it gives light, and wants a resistor in series. */
  readonly lights?: true;
}
/**
 * One section of what a stage does along the frequency axis. `pole`: a first-order low pass, 3 dB down at `hz`. `bass` and `treble`: first-order
 * shelves of `db`, half of it at `hz`. `mid`: a bell of `db` at `hz`.
 */
export type Band =
  | { readonly kind: 'pole'; readonly hz: number }
  | {
      readonly kind: 'bass' | 'mid' | 'treble';
      readonly hz: number;
      readonly db: number;
      /** The knob that sets it, from −`db` at 0 through nothing at 5 to `db` at 10. */
      readonly shaft?: ShaftId;
    };
/** An amplifier stage from `a` (in) to `b` (out), both against the lug `minus`; alive only where a battery stands across plus and minus. */
export interface Gain extends ElementBase {
  readonly kind: 'gain';
  readonly plus: LugId;
  readonly minus: LugId;
  /** The lug against which the input is amplified, of an op-amp; `minus` where absent. */
  readonly inverting?: LugId;
  /** Of a transistor: which way its current flows, from `plus` to `minus` or back, through whatever resistors and windings lie between it and the battery. */
  readonly transistor?: 'forward' | 'backward';
  readonly gain: number;
  readonly inputResistance: Quantity;
  readonly outputResistance: Quantity;
  readonly current?: Quantity;
  /** One after the other, behind the amplification. */
  readonly bands?: readonly Band[];
}
export type Element = Coil | Resistor | Capacitor | Inductor | Battery | Diode | Track | Gain;
