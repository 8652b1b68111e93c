/** What fault finding works with and answers. */
import type { AnalysedCircuit, LugId, Measurement } from '../../circuit/model.js';
import type { Setting } from '../../electrics/index.js';
import type { SourceRange } from '../../source.js';

export type FaultKind =
  | 'cold joint'
  | 'touches metal'
  | 'screen strand'
  | 'bridged lugs'
  | 'broken coil'
  | 'shorted coil'
  | 'partly shorted coil'
  | 'reversed pickup'
  | 'reversed coil'
  | 'shorted capacitor'
  | 'open capacitor'
  | 'worn wiper'
  | 'broken track'
  | 'open contact'
  | 'wrong lug'
  | 'exchanged wires'
  | 'turned part'
  | 'no supply';

/** One thing that may be wrong on the bench, with the circuit as it then is. */
export interface Fault {
  readonly kind: FaultKind;
  /** As it is said: `a cold joint, or a broken wire`. */
  readonly says: string;
  /** Lugs and parts by name: `volume.1 to volume.case`. */
  readonly where: string;
  /** How common it is against the others: a judgement of common practice. */
  readonly weight: number;
  readonly circuit: AnalysedCircuit;
  /** Two lugs between which a reading tells it directly, where there are such. */
  readonly probes?: readonly [LugId, LugId];
}

/** A reading that was taken: one claim of one `measured` line. */
export interface Reading {
  readonly measurement: Measurement;
  readonly claim: Measurement['claims'][number];
  readonly settings: readonly Setting[];
  /** As the user sees it: `selector "both" reads 3.03k`. */
  readonly says: string;
}

export interface Suspect {
  readonly fault: Fault;
  /** Readings that it explains, and those that it does not. */
  readonly explains: readonly Reading[];
  readonly leaves: readonly Reading[];
}

/** A reading to take next, and what each of the first suspects would make of it. */
export interface NextReading {
  /** Probes inside; the jack where absent. */
  readonly between?: readonly [LugId, LugId];
  readonly setting: Setting;
  /** The line to be completed: `measured between neck.hot and neck.ground : reads …`. */
  readonly line: string;
  /** Where to put the probes and how the controls stand, a sentence. */
  readonly where: string;
  /** By what the meter would say, the suspects that say so; the likeliest first. */
  readonly outcomes: readonly { readonly reads: string; readonly suspects: readonly Suspect[] }[];
}

/** A value written `?` as the readings give it. */
export interface Estimate {
  readonly part: string;
  readonly property: string;
  readonly ohm: number;
  /** The property as it is written: `6.65k`. */
  readonly text: string;
  /** The readings it comes from. */
  readonly from: readonly Reading[];
  /** Where the `?` stands. */
  readonly range?: SourceRange;
}

/** A joint that a reading proves and the text has not. */
export interface Proof {
  readonly line: string;
  readonly from: Reading;
}

export interface Located {
  /** Where the work did not suffice: rarer faults may explain the readings as well, and no reading is proposed unless there was time for it. */
  readonly isStopped?: true;
  /** Readings that can be judged; those on which an unknown value has a part are not among them. */
  readonly readings: readonly Reading[];
  /** Readings that the circuit as it is written explains. */
  readonly asWritten: readonly Reading[];
  /** Faults that explain a reading which the circuit as written does not, the likeliest first. */
  readonly suspects: readonly Suspect[];
  readonly next?: NextReading;
  readonly estimates: readonly Estimate[];
  readonly proofs: readonly Proof[];
  /** Readings that would tell what is not known yet of an instrument that is being traced, as lines to be completed. */
  readonly probes: readonly string[];
}
