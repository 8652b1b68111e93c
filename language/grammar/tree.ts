/** The syntax tree: one node a statement, each with its own ranges, so that a statement can be kept while others change. */
import type { Place, Severity } from '../source.js';
import type { Scan } from './statements.js';

/** A range counted from the first line of its statement (line 0 is the statement's own first line; characters are the file's). */
export interface LocalRange {
  readonly start: Place;
  readonly end: Place;
}

/** One word as written: a name, a value (starts with a digit, a point or is a letter-coded value), a string (quotes and escapes resolved) or `?`. */
export interface Word {
  readonly kind: 'name' | 'value' | 'string' | 'unknown';
  readonly text: string;
  readonly range: LocalRange;
}

/** `volume.3`, `saddle`, `neck.north`, `blend.a`: one to three words joined by dots. */
export interface DottedName {
  readonly path: readonly Word[];
  readonly range: LocalRange;
}

/** One entry of braces: a name and what follows it up to the comma or line end (`lead hot white 300mm`, `positions "a" "b"`, `insulated`). */
export interface PropertyNode {
  readonly name: Word;
  readonly values: readonly Word[];
  readonly range: LocalRange;
}

export interface ArrangementNode {
  readonly reversed: boolean;
  readonly range: LocalRange;
  /** `30%` after it. */
  readonly share?: Word;
  /** Either a group … */
  readonly group?: 'series' | 'parallel' | 'mixed';
  readonly members?: readonly ArrangementNode[];
  /** … or a pickup or coil. */
  readonly name?: DottedName;
}

export interface SettingNode {
  readonly control: DottedName;
  /** A number (`kind: 'value'`), a bare name or a string. */
  readonly position: Word;
  readonly range: LocalRange;
}

export type ClaimNode = { readonly range: LocalRange } & (
  | { readonly kind: 'sounds'; readonly arrangement: ArrangementNode }
  | { readonly kind: 'silent' | 'hums' | 'reads-open' | 'reads-short' }
  | { readonly kind: 'hum'; readonly hum: 'cancelled' | 'partly' | 'present' }
  | { readonly kind: 'reads' | 'peak' | 'cutoff'; readonly value: Word; readonly within?: Word }
  | { readonly kind: 'level'; readonly value: Word; readonly at?: Word; readonly within?: Word }
);

/** Where a thing lies: `at X Y`. */
export interface SpotNode {
  readonly x: Word;
  readonly y: Word;
  readonly range: LocalRange;
}

interface Node {
  /** First line of the statement in the file, from 0. Local ranges count from here. */
  readonly line: number;
  /** The whole statement without its doc comment. */
  readonly range: LocalRange;
  /** The statement's own word. */
  readonly head: Word;
  /** Text of the doc comment directly before it, stars removed. */
  readonly doc?: string;
}

export interface InstrumentStatement extends Node {
  readonly kind: 'instrument';
  readonly title?: Word;
  readonly properties: readonly PropertyNode[];
}
export interface UseStatement extends Node {
  readonly kind: 'use';
  readonly path: Word;
}
export interface PartStatement extends Node {
  readonly kind: 'part';
  readonly names: readonly Word[];
  readonly type: Word;
  /** Bare values and words after the type, in order. */
  readonly values: readonly Word[];
  readonly ends?: { readonly form: 'from' | 'across'; readonly a: DottedName; readonly b: DottedName };
  readonly properties: readonly PropertyNode[];
}
export interface WireStatement extends Node {
  readonly kind: 'wire';
  /** Two or more. */
  readonly ends: readonly DottedName[];
  /** Colours, gauges, lengths, `bare`, `twisted`, `shielded`: as written, still to be understood. */
  readonly options: readonly Word[];
  /** The numbers behind `no`: of the first piece, the second and so on. */
  readonly numbers: readonly Word[];
  readonly screens: readonly DottedName[];
}
export interface SolderStatement extends Node {
  readonly kind: 'solder';
  readonly ends: readonly DottedName[];
}
export interface CavityStatement extends Node {
  readonly kind: 'cavity';
  readonly name: Word;
  readonly shield: boolean;
  readonly depth?: Word;
  readonly properties: readonly PropertyNode[];
}
export interface ChannelStatement extends Node {
  readonly kind: 'channel';
  readonly from: Word;
  readonly to: Word;
  readonly length?: Word;
  readonly bore?: Word;
  readonly properties: readonly PropertyNode[];
}
export interface PlateStatement extends Node {
  readonly kind: 'plate';
  readonly name: Word;
  readonly cavity: Word;
  readonly metal: boolean;
  readonly shield: boolean;
  readonly thick?: Word;
  /** Width and height. */
  readonly size?: { readonly width: Word; readonly height: Word };
  readonly entries: readonly { readonly part: Word; readonly spot?: SpotNode }[];
}
export interface PlaceStatement extends Node {
  readonly kind: 'place';
  readonly parts: readonly Word[];
  readonly cavity: Word;
  readonly spot?: SpotNode;
}
export interface RigStatement extends Node {
  readonly kind: 'rig';
  readonly properties: readonly PropertyNode[];
}
/** `build { slack 20mm, gauge 24awg }`: habits of the workshop, for the bench sheet. */
export interface BuildStatement extends Node {
  readonly kind: 'build';
  readonly properties: readonly PropertyNode[];
}
/** `record 2 { by "…", changed "…", done "…" }`: whose record this file is, of those that are built alike. */
export interface RecordStatement extends Node {
  readonly kind: 'record';
  readonly number: Word;
  readonly properties: readonly PropertyNode[];
}
/** `actual neck 6.31k { lead hot red }`: what a part measures in hand. */
export interface ActualStatement extends Node {
  readonly kind: 'actual';
  readonly name: Word;
  readonly values: readonly Word[];
  readonly properties: readonly PropertyNode[];
}
export interface ExpectStatement extends Node {
  readonly kind: 'expect';
  /** The output that the line is about, where it names one. */
  readonly output?: DottedName;
  readonly settings: readonly SettingNode[];
  readonly claims: readonly ClaimNode[];
}
export interface MeasuredStatement extends Node {
  readonly kind: 'measured';
  readonly between?: readonly [DottedName, DottedName];
  readonly output?: DottedName;
  readonly settings: readonly SettingNode[];
  readonly claims: readonly ClaimNode[];
}
export interface AllowStatement extends Node {
  readonly kind: 'allow';
  readonly rule: Word;
  readonly on?: DottedName;
  readonly why?: Word;
}
export interface TypeStatement extends Node {
  readonly kind: 'type';
  readonly name: Word;
  readonly base: Word;
  readonly body: readonly BodyStatement[];
}

/** `lugs A0 A1`, `optional cover`, `metal frame`; `optional 1 to 99` is a range of which a lug exists where it is named. */
export interface LugsStatement extends Node {
  readonly kind: 'lugs' | 'optional' | 'metal';
  readonly names: readonly Word[];
  readonly upTo?: Word;
}
/** `rows A1 A2 / B1 B2`; `null` for an empty place written `-`. */
export interface RowsStatement extends Node {
  readonly kind: 'rows';
  readonly rows: readonly (readonly (Word | null)[])[];
}
export interface TakesStatement extends Node {
  readonly kind: 'takes';
  /** A value gives default and unit; choices the words, the first the default; neither a free word. */
  readonly parameters: readonly { readonly name: Word; readonly value?: Word; readonly choices: readonly Word[] }[];
}
export interface PositionsStatement extends Node {
  readonly kind: 'positions';
  readonly names: readonly Word[];
}
export interface AtStatement extends Node {
  readonly kind: 'at';
  readonly position: Word;
  /** The parameter without which a part has no such position. */
  readonly where?: Word;
  /** The two lugs between which a battery brings it into this position: from the first to the second alone, or either way. */
  readonly drive?: { readonly a: Word; readonly b: Word; readonly eitherWay: boolean };
  readonly joins: readonly (readonly Word[])[];
}
export interface RestStatement extends Node {
  readonly kind: 'rest';
  readonly position: Word;
}
export interface ElementStatement extends Node {
  readonly kind: 'element';
  readonly element: 'coil' | 'piezo' | 'resistor' | 'capacitor' | 'inductor' | 'battery' | 'diode' | 'track' | 'gain';
  readonly name?: Word;
  readonly a: Word;
  readonly b: Word;
  readonly wiper?: Word;
  readonly properties: readonly PropertyNode[];
}
/** `also screw for north`: a second name of a lug or coil. */
export interface AlsoStatement extends Node {
  readonly kind: 'also';
  readonly alias: Word;
  readonly of: Word;
}

export type BodyStatement =
  | LugsStatement
  | RowsStatement
  | TakesStatement
  | PositionsStatement
  | AtStatement
  | RestStatement
  | ElementStatement
  | AlsoStatement
  | PartStatement
  | WireStatement
  | SolderStatement;

export type Statement =
  | InstrumentStatement
  | UseStatement
  | PartStatement
  | WireStatement
  | SolderStatement
  | CavityStatement
  | ChannelStatement
  | PlateStatement
  | PlaceStatement
  | RigStatement
  | BuildStatement
  | RecordStatement
  | ActualStatement
  | ExpectStatement
  | MeasuredStatement
  | AllowStatement
  | TypeStatement;

/** A text in the place of a range; an insertion has an empty range. */
export interface LocalRewrite {
  readonly range: LocalRange;
  readonly text: string;
}

/** Something wrong with one statement's text. */
export interface SyntaxProblem {
  readonly rule: 'syntax';
  readonly severity: Severity;
  readonly message: string;
  /** Counted in the file, not in the statement. */
  readonly range: LocalRange;
  /** What is to be written where, if there is no doubt; counted in the file. */
  readonly rewrites?: readonly LocalRewrite[];
  /** The word of the statement in which it lies, where that is known. */
  readonly head?: string;
}

export interface Tree {
  readonly uri: string;
  /** The text cut into tokens and statements; absent where it is too long to be read. */
  readonly scan?: Scan;
  readonly statements: readonly Statement[];
  readonly problems: readonly SyntaxProblem[];
}
