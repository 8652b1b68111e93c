/** The shop's own habits: slack, strip, sleeving, stock, fill. Defaults are common practice unless a source is named; `build { … }` changes them. */
import type { Circuit } from '../circuit/model.js';

/** Lengths in metres, shares from 0 to 1. */
export interface BuildSettings {
  /** Added to every wire's way, so that it can be dressed. */
  readonly slack: number;
  /** Added once for each plate that a wire leaves, so that the plate can be turned over with its wires on. */
  readonly lift: number;
  /** Insulation taken off at each end: enough for a hook through an eyelet. */
  readonly strip: number;
  /** Wires are cut to a whole number of these. */
  readonly step: number;
  /** The way across a cavity from a place to the mouth of a channel or to another place, where the places are not given. */
  readonly crossing: number;
  /** What is reckoned for a cavity's depth where none is given. */
  readonly depth: number;
  /** Gauge off the reel where a wire names none. */
  readonly gauge: number;
  /** Share of a channel's cross-section that its wires may take. */
  readonly fill: number;
  /** Outside diameter of shielded wire, of a pickup's single lead, and of the cable of a pickup with three leads or more. */
  readonly shielded: number;
  readonly lead: number;
  readonly cable: number;
  /** Length of one piece of heat-shrink. */
  readonly sleeve: number;
  /** Parts ordered beyond what the batch takes, of each kind. */
  readonly spares: number;
  /** Ends that a lug takes in one heat; more are soldered in groups. */
  readonly ends: number;
  /** Ends that are tacked onto a case in one heat. */
  readonly 'case-ends': number;
  /** What washer and nut take of a bushing in front of the plate. */
  readonly nut: number;
  /** The least length of shaft in front of the nut that a knob holds on. */
  readonly knob: number;
}

/**
 * What holds where nothing is said. All common practice, for a maker to overrule: strip and slack as in hand wiring on eyelets; the fill of 60 %
 * lies under the 67 % at which six equal wires lie tight in a round hole, so that wires can still be pulled.
 */
export const USUAL_BUILD: BuildSettings = {
  slack: 0.02,
  lift: 0.05,
  strip: 0.006,
  step: 0.005,
  crossing: 0.05,
  depth: 0.035,
  gauge: 22,
  fill: 0.6,
  shielded: 0.0022,
  lead: 0.0016,
  cable: 0.0035,
  sleeve: 0.012,
  spares: 0,
  ends: 4,
  'case-ends': 2,
  nut: 0.003,
  knob: 0.008,
};

/** What the shop prefers in the solder order where the rules leave a choice; the usual words are the rules as they stand. */
export interface OrderPreferences {
  /** `signal` brings signal wires before ground wires. */
  readonly first: string;
  /** When the pickups' own leads come in their cavity: `with` the wires, before them (`first`) or after them (`last`). */
  readonly leads: string;
  /** `jack` works the cavities from the jack outwards. */
  readonly from: string;
}

export function orderPreferences(circuit: Circuit): OrderPreferences {
  return { first: 'ground', leads: 'with', from: 'farthest', ...circuit.order };
}

/** How many instruments the lists are for: the batch, or the one whose record this is. */
export function builtCount({ batch, record }: Circuit): number {
  return record === undefined ? batch : 1;
}

/** The settings of this instrument: the usual ones with what its `build { … }` says. */
export function buildSettings(circuit: Circuit): BuildSettings {
  return { ...USUAL_BUILD, ...circuit.build };
}
