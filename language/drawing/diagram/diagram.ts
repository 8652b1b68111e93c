/** The diagram: what is to be drawn and what hangs together, without a place for anything. */
import type { PartKind, SwitchForm } from './part-kind.js';

export interface Diagram {
  readonly title: string;
  /** The first sentence of the comment above `instrument`; empty where there is none. */
  readonly subtitle: string;
  /** The date of the instrument's record, where it has one. */
  readonly date?: string;
  /** In an order that does not depend on the order of statements. */
  readonly parts: readonly DiagramPart[];
  readonly runs: readonly DiagramRun[];
  readonly groups: readonly DiagramGroup[];
  readonly channels: readonly DiagramChannel[];
  readonly grounds: 'wires' | 'marks';
}

export interface DiagramPart {
  /** `part:volume`. */
  readonly id: string;
  readonly name: string;
  readonly type: string;
  readonly kind: PartKind;
  /** Values, or the type, a line each. */
  readonly values: readonly string[];
  readonly lugs: readonly DiagramLug[];
  /** Indices into `lugs`, from the solder side; empty where the type says nothing. */
  readonly rows: readonly (readonly (number | null)[])[];
  readonly contacts: readonly DiagramContact[];
  /** Ids of the lugs that are bent onto the part's own case and soldered there. */
  readonly bent: readonly string[];
  /** What a switch looks like; absent for other parts. */
  readonly form?: SwitchForm;
  /** The numbers of a lever's positions with the handle at the beginning and at the end of its rows. */
  readonly handle?: { readonly begin: number; readonly end: number };
  /** The group that holds it. */
  readonly group?: string;
  /** Its place on the group's plate or floor from the corner, metres. */
  readonly at?: { readonly x: number; readonly y: number };
  /** Two leads soldered where the part's statement says. */
  readonly inPlace: boolean;
  /** What a `network` is made of; the lugs in the order of the network's own two, to which they are soldered. */
  readonly inner?: readonly DiagramInner[];
}

export interface DiagramInner {
  readonly name: string;
  readonly kind: PartKind;
  readonly values: readonly string[];
  readonly lugs: readonly [DiagramLug, DiagramLug];
}

export interface DiagramLug {
  /** `lug:volume.3`. */
  readonly id: string;
  readonly name: string;
  /** As it is written. */
  readonly label: string;
  readonly metal: boolean;
  /** How many runs and marks end on it. */
  readonly ends: number;
}

/** Lugs that are one contact in some position of the part's switch. */
export interface DiagramContact {
  /** `contact:selector:A0+A1`. */
  readonly id: string;
  /** Indices into the part's lugs. */
  readonly lugs: readonly number[];
}

/** One run of wire, one lead of a part in place, one direct joint, the tie of a screen, or the stub of a ground mark. */
export interface DiagramRun {
  /** `wire:output.tip~volume.2`, the ends in order of their names. */
  readonly id: string;
  readonly kind: 'wire' | 'lead' | 'solder' | 'screen' | 'ground';
  /** Ids of the circuit's joints that it stands for; not stable, for finding one from the other only. */
  readonly joints: readonly number[];
  /** Ids of lugs; the `from` of a screen's tie is the id of the run whose screen it is. */
  readonly from: string;
  readonly to: string;
  /** What its label says: `W5` for the fifth wire of the cut list, `L2` for a part's own lead; none for what is neither. */
  readonly number?: string;
  /** Colour words, the base first. */
  readonly colours: readonly string[];
  /** IEC 60757 letters, empty where no colour is given. */
  readonly letters: string;
  readonly bare: boolean;
  readonly twisted: boolean;
  readonly shielded: boolean;
  readonly ownLead: boolean;
  readonly ground: boolean;
  /** One sentence for screen readers. */
  readonly says: string;
}

/** A cavity, a plate in it, or an assembly: an outline around what it holds. */
export interface DiagramGroup {
  /** `cavity:NAME`, `plate:NAME`, `assembly:NAME`. */
  readonly id: string;
  readonly name: string;
  readonly kind: 'cavity' | 'plate' | 'assembly';
  /** `metal`, `shielded`: said beside the name. */
  readonly notes: readonly string[];
  readonly parent?: string;
}

export interface DiagramChannel {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  /** Length and bore, where they are given. */
  readonly texts: readonly string[];
}
