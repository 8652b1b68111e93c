/** What a comparison tells: plain data, each item with its sentence, and with its places before and after where it has them. */
import type { AnalysedCircuit, Joint, PartId } from '../circuit/model.js';
import type { Hum } from '../electrics/index.js';
import type { SetAside } from '../checks/index.js';
import type { Finding, Severity, SourceRange } from '../source.js';

/** A circuit with what `findings` tells of it. */
export interface Side {
  readonly circuit: AnalysedCircuit;
  readonly findings: readonly Finding[];
  /** The findings that its `allow` lines hide, from `setAside`. */
  readonly aside: readonly SetAside[];
}

/** `new` and `gone` stand in one circuit only; `moved` has an end elsewhere; `changed` is anything else. */
export type Kind = 'new' | 'gone' | 'moved' | 'changed';

interface Item {
  readonly kind: Kind;
  /** One sentence in trade words, without its full stop. */
  readonly says: string;
  readonly before?: SourceRange;
  readonly after?: SourceRange;
}

/** Something of the instrument as a whole: its title, batch, rig, shop settings, cavities, plates and channels. */
export interface InstrumentChange extends Item {
  readonly name: string;
}

export interface PartChange extends Item {
  /** `name`: called otherwise. `contacts`, `leads`, `place`, `inside` as the words say; `position` is the name of a switch position. */
  readonly what: 'part' | 'name' | 'type' | 'value' | 'contacts' | 'position' | 'leads' | 'place' | 'inside';
  /** The name now, or before where it is gone. */
  readonly name: string;
  readonly part?: { readonly before?: PartId; readonly after?: PartId };
}

export interface WireChange extends Item {
  readonly joint: Joint['kind'];
  /** Its ends by the labels of lugs, as they were and as they are. */
  readonly ends: { readonly before?: readonly [string, string]; readonly after?: readonly [string, string] };
  readonly ids: { readonly before?: number; readonly after?: number };
  /** Bench work on an existing instrument; absent if none is needed. */
  readonly work?: string;
}

/** A figure before and after; null where there is none (an open meter, a response without a peak). */
export interface Figures {
  readonly before: number | null;
  readonly after: number | null;
}

export interface Limits {
  readonly low: number;
  readonly high: number;
}

/** What differs in one setting, in SI units and decibels. */
export interface Heard {
  readonly sounds?: { readonly before: string; readonly after: string };
  readonly hum?: { readonly before: Hum; readonly after: Hum };
  /** Ohm. */
  readonly reads?: Figures;
  /** What a meter may show on a good instrument, in ohm, where the reading is the same and its limits are not. */
  readonly limits?: { readonly before: Limits; readonly after: Limits };
  readonly peakHz?: Figures;
  /** Height of the peak over the level at low frequencies. */
  readonly peakDb?: Figures;
  /** Told where there is no peak. */
  readonly cutoffHz?: Figures;
  readonly levelDb?: Figures;
}

export interface PositionChange extends Heard {
  readonly kind: 'new' | 'gone' | 'changed';
  /** Where it is heard: `jack.tip`; empty without a jack. */
  readonly output: string;
  /** The output where there are several, and the setting; empty where there is one output and nothing to set. */
  readonly label: string;
  /** What differs, without the label. */
  readonly what: string;
  readonly says: string;
}

/** The largest difference that can be heard when a pot, or two together, are turned; or another effect of a pot. */
export interface ControlChange extends Heard {
  readonly name: string;
  /** Rotation at which it was compared. */
  readonly rotation: number;
  /** Another pot that was turned as well. */
  readonly together?: readonly { readonly name: string; readonly rotation: number }[];
  /** The position in which it was compared, where there are several. */
  readonly label?: string;
  readonly role?: { readonly before: string; readonly after: string };
  /** What differs, without the output. */
  readonly what: string;
  readonly says: string;
}

export interface ExpectationChange {
  /**
   * `held` fails no longer; `broken` held before; `unknown` can’t be checked any more; `new` and `gone` lines say what they do. `loosened` allows more
   * than before, `tightened` less, `rewritten` something else for the same settings; `narrowed` is no longer checked in every setting.
   */
  readonly kind: 'held' | 'broken' | 'unknown' | 'new' | 'gone' | 'loosened' | 'tightened' | 'rewritten' | 'narrowed';
  readonly expects: string;
  /** Of a claim that is met, broken or can't be checked now: where it is to hold, what it claims, and what is found instead. */
  readonly place?: string;
  readonly claim?: string;
  readonly found?: string;
  readonly holds?: boolean;
  /** True where less is checked than before. */
  readonly weakens?: true;
  readonly says: string;
  readonly before?: SourceRange;
  readonly after?: SourceRange;
}

/** An `allow` line that differs, or that hides more than before. */
export interface AllowChange {
  readonly kind: 'new' | 'gone' | 'changed';
  readonly rule: string;
  /** The part or lug that it names; absent for the whole instrument. */
  readonly on?: string;
  readonly why: string;
  /** Findings that it sets aside and that were not set aside by it before. */
  readonly hides: readonly { readonly severity: Severity; readonly message: string }[];
  readonly says: string;
  readonly before?: SourceRange;
  readonly after?: SourceRange;
}

/** A reading that was taken, or a text of the record of one instrument. */
export interface RecordChange extends Item {
  /** `measured`, or the property of the record: `by`, `date`, `changed`, `before`, `done`, `number`. */
  readonly what: string;
}

/** A version with errors in its text, so that part of it is not compared. */
export interface Unread {
  readonly version: 'old' | 'new';
  /** How many errors. */
  readonly errors: number;
  /** The first of them. */
  readonly message: string;
  readonly range: SourceRange;
  readonly says: string;
}

export interface FindingChange {
  /** `changed` is the same fault in other words; `set-aside` is still there, but an `allow` hides it now; `reopened` was hidden before. */
  readonly kind: 'new' | 'gone' | 'changed' | 'set-aside' | 'reopened';
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly says: string;
  readonly before?: SourceRange;
  readonly after?: SourceRange;
}

/** A wire of the cut list, or a step of the solder order. */
export interface WorkChange {
  readonly kind: 'new' | 'gone' | 'changed';
  readonly says: string;
}

/** All that differs between two circuits. */
export interface Change {
  readonly version: 1;
  readonly title: { readonly before: string; readonly after: string };
  /** Versions with errors in their text; nothing else in here is complete then. Empty where both could be read. */
  readonly unread: readonly Unread[];
  /** False exactly where both texts were read and every element, every setting's nets and all that is plugged in are the same. */
  readonly electrical: boolean;
  /** True where something is bought, cut, soldered or placed otherwise. */
  readonly build: boolean;
  /** `no electrical change`, `no electrical change, but the build changes` or `electrical change`; of two files of types, that there is no circuit; of a text with errors, that the comparison is incomplete. */
  readonly summary: string;
  readonly instrument: readonly InstrumentChange[];
  readonly parts: readonly PartChange[];
  readonly wires: readonly WireChange[];
  readonly positions: readonly PositionChange[];
  readonly controls: readonly ControlChange[];
  /** Pickups that were heard in some position and are heard in none now, and coils (`neck.south`) of others, as they were called. */
  readonly lost: readonly string[];
  readonly expectations: readonly ExpectationChange[];
  readonly records: readonly RecordChange[];
  readonly allows: readonly AllowChange[];
  readonly findings: readonly FindingChange[];
  /** How many findings are left out of that list, where it would be too long. */
  readonly omitted?: number;
  /** What is to be done on an instrument that is built already, in the order of the work. */
  readonly rework: readonly string[];
  readonly cuts: readonly WorkChange[];
  readonly steps: readonly WorkChange[];
  /** What was not compared and why, a sentence each. */
  readonly notes: readonly string[];
}
