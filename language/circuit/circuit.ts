/** The circuit: what is soldered to what, without any trace of the syntax but the source range each item carries. */
import type { Finding, SourceRange } from '../source.js';
import type { Element } from './elements.js';
import type { ElementId, LugId, PartId, ShaftId, SwitchId } from './ids.js';
import type { Quantity, Unit } from './unit.js';

/** What a part's properties may hold, by name (`resistance`, `winding`, `turn`, `body`, …). */
export type Property = Quantity | { readonly words: readonly string[]; readonly range?: SourceRange };

export type Base = 'pickup' | 'switch' | 'control' | 'passive' | 'metal' | 'amplifier' | 'assembly';

/** Parts the language makes itself, besides those of a declared type. */
export type Family = Base | 'jack' | 'cavity' | 'plate' | 'screen';

export interface Part {
  readonly id: PartId;
  /** Full name; a part inside an assembly is `bleed.c`. */
  readonly name: string;
  /** The type's name as written (`lever-5`, `dark-coil`); `cavity`, `plate`, `screen` for those. */
  readonly type: string;
  /** The standard type it comes from, nearest first, itself included: `['dark-coil', 'pickup']`. */
  readonly ancestry: readonly string[];
  readonly family: Family;
  readonly lugs: readonly LugId[];
  readonly elements: readonly ElementId[];
  readonly properties: Readonly<Record<string, Property>>;
  /** The assembly this part is inside. */
  readonly parent?: PartId;
  /** True where the statement uses `from … to …` or `across … and …`: its two leads are soldered where it says. */
  readonly inPlace: boolean;
  /** Rows of lugs from the solder side, `null` for an empty place; empty where the type says nothing. */
  readonly rows: readonly (readonly (LugId | null)[])[];
  /** Cavity and plate that hold it, by name, with the place from the corner in metres. */
  readonly cavity?: string;
  readonly plate?: string;
  readonly at?: { readonly x: number; readonly y: number };
  /** The part's own leads, as its `lead` properties give them. */
  readonly leads?: readonly Lead[];
  /** True where the type named is not known: its lugs are those that the text names. */
  readonly untyped?: boolean;
  readonly doc?: string;
  /** The whole statement, and the name in it. */
  readonly range: SourceRange;
  readonly nameRange: SourceRange;
  readonly typeRange?: SourceRange;
}

export interface Lug {
  readonly id: LugId;
  readonly part: PartId;
  /** Name on the part (`3`, `A0`, `hot`). */
  readonly name: string;
  /** As written: `volume.3`, or the part's name alone where it has one lug. */
  readonly label: string;
  /** Case, frame, cover, bushing, screen, shield: belongs on ground. */
  readonly metal: boolean;
  /** A common ground point (a case, frame, sleeve, star, plate or cavity) that takes more than three wires. */
  readonly takesMany: boolean;
  /** Every place where a wire, joint or part statement names it. */
  readonly uses: readonly SourceRange[];
  /** A point inside the part that no wire reaches (the middle of a two-lead humbucker): not among `Part.lugs`. */
  readonly inner?: boolean;
}

/** A lead that comes with the part: a pickup's or a battery clip's own wire. */
export interface Lead {
  readonly lug: LugId;
  readonly colour?: string;
  readonly gauge?: number;
  /** Metres. */
  readonly length?: number;
  /** Within a screen or a braid. */
  readonly shielded: boolean;
  readonly make?: WireLooks['make'];
  readonly range: SourceRange;
}

/** How two lugs are joined for good. `touch` is metal on metal (case on a metal plate), `inside` a joint made inside the part's type. */
export type JointKind = 'wire' | 'solder' | 'touch' | 'screen' | 'inside';

/** How a wire looks: what its statement or its lead says of it. */
export interface WireLooks {
  readonly colour?: string;
  /** Where the wire itself names its colour; absent where the colour is that of a part's own lead. */
  readonly colourRange?: SourceRange;
  readonly gauge?: number;
  /** Metres. */
  readonly length?: number;
  readonly bare: boolean;
  readonly twisted: boolean;
  readonly shielded: boolean;
  /** How it is made, in the order of `wireMakes`; absent where nothing is said. */
  readonly make?: readonly WireMake[];
}

/** Words for the conductor and for what is round it. */
export const wireMakes = ['solid', 'stranded', 'cloth', 'braided'] as const;
export type WireMake = (typeof wireMakes)[number];

export interface Joint extends WireLooks {
  readonly id: number;
  readonly kind: JointKind;
  readonly a: LugId;
  readonly b: LugId;
  /** Joints of one statement share this number (a wire with several `to` is several runs). */
  readonly statement: number;
  /** Of a wire: its number in the cut list, `W5` off the reel, `L2` for a part's own lead. */
  readonly mark?: string;
  /** The number that the text gives it (`no 5`); absent where it takes one that is free. */
  readonly number?: number;
  /** The pickup's or clip's own lead, not wire off the reel. */
  readonly ownLead: boolean;
  /** The screen's metal lug, where the run has one. */
  readonly screen?: LugId;
  /** The part in whose type an `inside` joint is written, and what the type calls it; a part in place is soldered. */
  readonly holder?: PartId;
  readonly form?: 'wire' | 'solder';
  /** The run, and the two lug names in it. */
  readonly range: SourceRange;
  readonly aRange: SourceRange;
  readonly bRange: SourceRange;
  /** The whole statement. */
  readonly statementRange: SourceRange;
}

export interface SwitchPosition {
  /** From 1, in the type's order. */
  readonly number: number;
  /** What JSON `set` holds: the number, or the type's bare name (`up`). */
  readonly key: string;
  /** The user's or the type's name, else the number. */
  readonly label: string;
  /** Groups of lugs that are one contact in this position. */
  readonly joins: readonly (readonly LugId[])[];
  readonly range?: SourceRange;
}
/** A switch that current works: it is in `position`, an index, while a battery drives current from lug `a` to `b`, or either way. */
export interface Drive {
  readonly position: number;
  readonly a: LugId;
  readonly b: LugId;
  readonly eitherWay: boolean;
}
export interface Switch {
  readonly id: SwitchId;
  readonly part: PartId;
  /** The part's name. */
  readonly name: string;
  readonly positions: readonly SwitchPosition[];
  /** Index of the resting position of one that rests (momentary switch, jack): it is held there and not enumerated. */
  readonly rest?: number;
  /** What brings it from its rest into a position, of a relay. */
  readonly drive?: Drive;
}

/** A shaft that turns, with its tracks. */
export interface Shaft {
  readonly id: ShaftId;
  readonly part: PartId;
  /** `volume`, or `blend.a` where a part has two shafts. */
  readonly name: string;
  /** Rotation where nothing is said, 0 to 10. */
  readonly rest: number;
  readonly turn: 'right' | 'left';
  readonly tracks: readonly ElementId[];
}

/** One thing the user sets: a switch to a position index, or a shaft to a rotation. */
export type ControlSetting =
  | { readonly kind: 'switch'; readonly switch: SwitchId; readonly position: number; readonly range: SourceRange }
  | { readonly kind: 'shaft'; readonly shaft: ShaftId; readonly rotation: number; readonly range: SourceRange };

/** What sounds, and how it is joined. `share` is 0…1 of the loudest coil. A `coil` node of a one-coil pickup and the `pickup` node mean the same. */
export type Arrangement = { readonly reversed: boolean; readonly share?: number } & (
  | { readonly kind: 'pickup'; readonly part: PartId }
  | { readonly kind: 'coil'; readonly coil: ElementId }
  | { readonly kind: 'series' | 'parallel' | 'mixed'; readonly members: readonly Arrangement[] }
);

export type Claim = { readonly range: SourceRange } & (
  | { readonly kind: 'sounds'; readonly arrangement: Arrangement }
  | { readonly kind: 'silent' }
  | { readonly kind: 'hum'; readonly hum: 'cancelled' | 'partly' | 'present' }
  | { readonly kind: 'reads'; readonly ohm: number; readonly within?: number }
  | { readonly kind: 'reads-open' }
  | { readonly kind: 'reads-short' }
  | { readonly kind: 'hums' }
  | { readonly kind: 'peak'; readonly hz: number; readonly within?: number }
  /** The upper frequency at which the level is 3.01 dB below that of low frequencies. */
  | { readonly kind: 'cutoff'; readonly hz: number; readonly within?: number }
  /** The level against one unloaded pickup of output 100 %, at low frequencies or at `hz`; `within` in dB. */
  | { readonly kind: 'level'; readonly db: number; readonly hz?: number; readonly within?: number }
);

export interface Expectation {
  /** The contact of a jack that the line names; absent for the tip of the first jack. */
  readonly at?: LugId;
  readonly settings: readonly ControlSetting[];
  readonly claims: readonly Claim[];
  readonly range: SourceRange;
  readonly doc?: string;
}
export interface Measurement extends Expectation {
  /** Two probes inside; absent for a reading at the jack. */
  readonly between?: readonly [LugId, LugId];
}
export interface Allow {
  readonly rule: string;
  readonly ruleRange: SourceRange;
  /** Part name or lug label; absent for the whole instrument. */
  readonly on?: string;
  readonly why: string;
  readonly range: SourceRange;
}

export interface Cavity {
  readonly name: string;
  readonly shielded: boolean;
  /** Metres. */
  readonly depth?: number;
  /** Its metal, where shielded. */
  readonly part?: PartId;
  readonly range: SourceRange;
  readonly nameRange: SourceRange;
}
export interface Channel {
  readonly from: string;
  readonly to: string;
  /** Metres. */
  readonly length?: number;
  readonly bore?: number;
  readonly range: SourceRange;
}
export interface Plate {
  readonly name: string;
  readonly cavity: string;
  readonly metal: boolean;
  readonly shielded: boolean;
  /** Metres: what a bushing has to pass. */
  readonly thick?: number;
  /** Metres: along X and along Y, from the corner that places are measured from. */
  readonly size?: { readonly width: number; readonly height: number };
  /** Its metal, where metal or shielded. */
  readonly part?: PartId;
  readonly carries: readonly PartId[];
  readonly range: SourceRange;
  readonly nameRange: SourceRange;
}

export interface Rig {
  /** Farad. */
  readonly cable: number;
  /** Ohm. */
  readonly input: number;
  /** Input capacitance of the amplifier, farad; nothing where absent. */
  readonly inputCapacitance?: number;
}

/** Settings of the workshop that `build { … }` may give: lengths in metres, `fill`, `pickup-tolerance` and `meter` a share of 1, `gauge` AWG, `spares`, `ends` and `case-ends` a count, `temperature` kelvin, `shielded-capacitance` farad a metre. */
export type BuildSetting =
  | 'slack'
  | 'lift'
  | 'strip'
  | 'step'
  | 'crossing'
  | 'depth'
  | 'gauge'
  | 'fill'
  | 'shielded'
  | 'lead'
  | 'cable'
  | 'sleeve'
  | 'spares'
  | 'ends'
  | 'case-ends'
  | 'nut'
  | 'knob'
  | 'pickup-tolerance'
  | 'meter'
  | 'temperature'
  | 'shielded-capacitance';

/** What `build { … }` may prefer in the solder order, each a word: what comes `first`, when the pickups' own `leads` come, `from` where the cavities are worked. */
export type OrderSetting = 'first' | 'leads' | 'from';

/** An open string: its note as written, and the frequency of its fundamental in hertz. */
export interface StringNote {
  readonly name: string;
  readonly hz: number;
}

/** What `instrument { … }` says of the strings: their length in metres, and the open notes, the lowest string first as a rule. */
export interface Strings {
  readonly scale: number;
  readonly tuning: readonly StringNote[];
}

/** What the file is the record of: one instrument of those that are built alike. Values in hand are in the parts already. */
export interface InstrumentRecord {
  /** From 1. */
  readonly number: number;
  readonly by?: string;
  readonly date?: string;
  /** What was changed, for the player to read; readings before the work, as they were noted; keys of the steps that are done. */
  readonly changed: readonly string[];
  readonly before: readonly string[];
  readonly done: readonly string[];
  readonly range: SourceRange;
}

/** Where the signal leaves: the first jack whose tip is wired (else the first jack). */
export interface Output {
  readonly part: PartId;
  readonly tip: LugId;
  readonly sleeve: LugId;
}

/** One mention of a name, for definition, references, rename and hover. `definition` is where the thing is declared (in a standard library file for its types). */
export interface NameUse {
  readonly kind: 'part' | 'lug' | 'type' | 'coil' | 'cavity' | 'plate' | 'position' | 'property' | 'rule' | 'file';
  readonly range: SourceRange;
  readonly definition?: SourceRange;
  readonly part?: PartId;
  readonly lug?: LugId;
  readonly isDefinition: boolean;
  readonly name: string;
}

/** A parameter of a type: a value with its default, a choice of words, or whatever is written (`free`). */
export interface ParameterInfo {
  readonly name: string;
  readonly kind: 'value' | 'choice' | 'free';
  readonly unit?: Unit;
  /** The default of a value, or the parameter that it follows. */
  readonly value?: Quantity;
  readonly follows?: string;
  /** The words of a choice, the default first. */
  readonly choices: readonly string[];
  readonly doc?: string;
  readonly range?: SourceRange;
}

/** A type that can be named in the text: for completion, hover and the reference. */
export interface TypeInfo {
  readonly name: string;
  readonly base: Base;
  /** Itself, the types it comes from, its base. */
  readonly ancestry: readonly string[];
  readonly family: Family;
  /** True for a type that comes with the language. */
  readonly standard: boolean;
  readonly lugs: readonly string[];
  readonly optional: readonly string[];
  readonly metal: readonly string[];
  /** Lug numbers that exist where they are named (`tag-strip`). */
  readonly numbered?: { readonly from: number; readonly to: number };
  /** Second names of lugs and coils: `screw` for `north`. */
  readonly aliases: Readonly<Record<string, string>>;
  readonly coils: readonly string[];
  readonly shafts: readonly string[];
  /** The two lugs that `from … to …` solders, where the type has two leads. */
  readonly leads?: readonly [string, string];
  readonly parameters: readonly ParameterInfo[];
  /** `where` names the parameter without which a part has no such position. */
  readonly positions: readonly {
    readonly name: string;
    readonly joins: readonly (readonly string[])[];
    readonly where?: string;
    /** True where a battery brings the part into it, not a hand. */
    readonly isDriven?: boolean;
  }[];
  /** Index of the position at which it rests. */
  readonly rest?: number;
  readonly doc?: string;
  readonly range: SourceRange;
  readonly nameRange: SourceRange;
}

export interface Circuit {
  readonly uri: string;
  readonly title?: string;
  readonly titleRange?: SourceRange;
  readonly batch: number;
  readonly hand: 'right' | 'left';
  readonly seen: 'front' | 'back';
  readonly parts: readonly Part[];
  readonly lugs: readonly Lug[];
  readonly joints: readonly Joint[];
  readonly elements: readonly Element[];
  readonly switches: readonly Switch[];
  readonly shafts: readonly Shaft[];
  readonly expectations: readonly Expectation[];
  readonly measurements: readonly Measurement[];
  readonly allows: readonly Allow[];
  readonly cavities: readonly Cavity[];
  readonly channels: readonly Channel[];
  readonly plates: readonly Plate[];
  readonly rig: Rig;
  /** Present where the text gives a scale; read by the response of a string alone. */
  readonly strings?: Strings;
  /** What `build { … }` says of the workshop's habits; absent where nothing is said. */
  readonly build?: Readonly<Partial<Record<BuildSetting, number>>>;
  /** What it prefers in the solder order; absent where nothing is said. */
  readonly order?: Readonly<Partial<Record<OrderSetting, string>>>;
  /** Present in the file of one instrument, which uses the text that all share. */
  readonly record?: InstrumentRecord;
  /** The comment above `instrument`: what it is, in the author's words. */
  readonly doc?: string;
  readonly output?: Output;
  /** All jacks in order of declaration. */
  readonly jacks: readonly PartId[];
  /** What was wrong with the text: syntax, unknown names, impossible values. Everything else in the circuit stands all the same. */
  readonly problems: readonly Finding[];
  /** The statements that neither wire nor declare anything (an expectation, a reading, an allow, the rig): what is wrong in them takes nothing out of the circuit. */
  readonly aside?: readonly SourceRange[];
  readonly names: readonly NameUse[];
  /** The types that its text and the files it uses declare; `typesOf` has the standard ones as well. */
  readonly types?: readonly TypeInfo[];
  /** Addresses of the files that it uses, directly or through another, in the order in which they were met; missing ones too. */
  readonly files?: readonly string[];
  /** True where no part is declared (a library file of types only): such a file is not checked as an instrument. */
  readonly isLibrary: boolean;
}
