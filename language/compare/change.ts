/** What a comparison tells: plain data, each item with its sentence, and with its places before and after where it has them. */
import type { AnalysedCircuit, Joint, PartId } from '../circuit/model.js';
import type { Hum } from '../electrics/index.js';
import type { Finding, Severity, SourceRange } from '../source.js';

/** A circuit with what `findings` tells of it. */
export interface Side {
  readonly circuit: AnalysedCircuit;
  readonly findings: readonly Finding[];
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
}

/** A figure before and after; null where there is none (an open meter, a response without a peak). */
export interface Figures {
  readonly before: number | null;
  readonly after: number | null;
}

/** What differs in one setting, in SI units and decibels. */
export interface Heard {
  readonly sounds?: { readonly before: string; readonly after: string };
  readonly hum?: { readonly before: Hum; readonly after: Hum };
  /** Ohm. */
  readonly reads?: Figures;
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

export interface ControlChange extends Heard {
  readonly name: string;
  /** Rotation at which it was compared. */
  readonly rotation: number;
  readonly role?: { readonly before: string; readonly after: string };
  readonly says: string;
}

export interface ExpectationChange {
  /** `held` fails no longer; `broken` held before; `new` and `gone` lines say what they do. */
  readonly kind: 'held' | 'broken' | 'unknown' | 'new' | 'gone';
  readonly expects: string;
  readonly holds?: boolean;
  readonly says: string;
  readonly before?: SourceRange;
  readonly after?: SourceRange;
}

export interface FindingChange {
  /** `changed` is the same fault in other words. */
  readonly kind: 'new' | 'gone' | 'changed';
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
  /** False exactly where every element, every setting's nets and all that is plugged in are the same. */
  readonly electrical: boolean;
  /** True where something is bought, cut, soldered or placed otherwise. */
  readonly build: boolean;
  /** `no electrical change`, `no electrical change, but the build changes` or `electrical change`; of two files of types, that there is no circuit. */
  readonly summary: string;
  readonly instrument: readonly InstrumentChange[];
  readonly parts: readonly PartChange[];
  readonly wires: readonly WireChange[];
  readonly positions: readonly PositionChange[];
  readonly controls: readonly ControlChange[];
  readonly expectations: readonly ExpectationChange[];
  readonly findings: readonly FindingChange[];
  /** How many findings are left out of that list, where it would be too long. */
  readonly omitted?: number;
  readonly cuts: readonly WorkChange[];
  readonly steps: readonly WorkChange[];
  /** What was not compared and why, a sentence each. */
  readonly notes: readonly string[];
}
