/** A type made ready for use: what its statements say, checked once, so that a part is made of it by copying. */
import type { ElementStatement } from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import type { Base, Family, Quantity, TypeInfo, Unit, WireLooks } from '../model.js';

export interface LugDefinition {
  readonly name: string;
  readonly optional: boolean;
  readonly metal: boolean;
  /** A point inside, where only elements meet. */
  readonly inner: boolean;
  readonly range: SourceRange;
}

/** `optional 1 to 99`. */
export interface NumberedLugs {
  readonly from: number;
  readonly to: number;
  readonly range: SourceRange;
}

export type Parameter = {
  readonly name: string;
  readonly doc?: string;
  /** Absent for those that every type of a base takes. */
  readonly range?: SourceRange;
  /** Left out of a part's properties where it isn't given. */
  readonly silent?: boolean;
} & (
  | { readonly kind: 'value'; readonly unit: Unit; readonly value: Quantity }
  | { readonly kind: 'choice'; readonly choices: readonly string[] }
  | { readonly kind: 'follows'; readonly of: string }
  | { readonly kind: 'free' }
);

/** What a part statement gives to one parameter. `outer` is a parameter of the type in whose body the statement stands. */
export type Argument =
  | {
      readonly kind: 'quantity';
      readonly quantity: Quantity;
      readonly ownTolerance: boolean;
      /** What the part in hand measures: no tolerance spreads it. */
      readonly measured?: boolean;
    }
  | { readonly kind: 'words'; readonly words: readonly string[]; readonly range: SourceRange }
  | { readonly kind: 'outer'; readonly name: string; readonly range: SourceRange };

export interface LeadArgument {
  readonly lug: string;
  readonly lugRange: SourceRange;
  readonly colour?: string;
  readonly gauge?: number;
  readonly length?: number;
  readonly shielded: boolean;
  readonly make?: WireLooks['make'];
  readonly range: SourceRange;
}

/** How the diagram that one types from sees a pot. */
export interface View {
  readonly seen?: 'front' | 'back';
  readonly lugs?: 'down' | 'up';
}

/** All that a part statement says after the type's name. */
export interface Arguments {
  readonly values: ReadonlyMap<string, Argument>;
  readonly labels: readonly { readonly text: string; readonly range: SourceRange }[];
  readonly leads: readonly LeadArgument[];
  readonly view: View;
  /** `rest` of a part whose type rests. */
  readonly rest?: { readonly index: number; readonly range: SourceRange };
}

export interface PositionDefinition {
  readonly name: string;
  /** Written in quotes: a name for people, not for settings without quotes. */
  readonly quoted: boolean;
  readonly range: SourceRange;
  readonly joins: readonly (readonly string[])[];
  /** The parameter without which a part has no such position. */
  readonly where?: string;
  /** The lugs between which a battery brings a part into this position: from `a` to `b`, or either way. */
  readonly drive?: { readonly a: string; readonly b: string; readonly eitherWay: boolean };
}

/** A property of an element: a value, words, or a parameter of the type. */
export type ElementValue =
  | { readonly kind: 'quantity'; readonly quantity: Quantity; readonly ownTolerance: boolean }
  | { readonly kind: 'parameter'; readonly name: string; readonly range: SourceRange }
  | { readonly kind: 'but'; readonly name: string; readonly range: SourceRange }
  | { readonly kind: 'word'; readonly word: string; readonly range: SourceRange };

export interface ElementDefinition {
  readonly kind: ElementStatement['element'];
  readonly name: string;
  readonly a: string;
  readonly b: string;
  readonly wiper?: string;
  readonly properties: ReadonlyMap<string, ElementValue>;
  readonly range: SourceRange;
  readonly nameRange?: SourceRange;
}

export interface InnerPart {
  readonly name: string;
  /** Absent where the type isn't known. */
  readonly type?: CompiledType;
  readonly typeName: string;
  readonly arguments: Arguments;
  readonly inPlace: boolean;
  readonly doc?: string;
  readonly range: SourceRange;
  readonly nameRange: SourceRange;
  readonly typeRange: SourceRange;
}

/** A lug of the type itself, or of a part inside it. */
export interface InnerEnd {
  readonly part?: string;
  readonly lug: string;
  readonly range: SourceRange;
}

export interface InnerJoint {
  readonly a: InnerEnd;
  readonly b: InnerEnd;
  readonly form: 'wire' | 'solder';
  /** Joints of one statement in the body share it. */
  readonly statement: number;
  readonly looks: WireLooks;
  readonly range: SourceRange;
  readonly statementRange: SourceRange;
}

export interface CompiledType {
  readonly name: string;
  readonly uri: string;
  readonly doc?: string;
  readonly range: SourceRange;
  readonly nameRange: SourceRange;
  readonly base: Base;
  readonly family: Family;
  readonly ancestry: readonly string[];
  readonly lugs: ReadonlyMap<string, LugDefinition>;
  readonly numbered?: NumberedLugs;
  readonly aliases: ReadonlyMap<string, string>;
  readonly rows: readonly (readonly (string | null)[])[];
  /** The type's own, then those of its base. */
  readonly parameters: ReadonlyMap<string, Parameter>;
  readonly positions: readonly PositionDefinition[];
  readonly rest?: number;
  readonly elements: readonly ElementDefinition[];
  readonly parts: readonly InnerPart[];
  readonly joints: readonly InnerJoint[];
  /** The two lugs that `from … to …` solders. */
  readonly leads?: readonly [string, string];
  /** True where its text is too broken to say what lugs it has: then a part of it has those that are named. */
  readonly isOpen: boolean;
  /** How many parts one such part is, itself counted, and how deep they stand in one another. */
  readonly size: number;
  readonly depth: number;
  readonly info: TypeInfo;
}

/** A type without its summary, which the parts that the language makes by itself need not have. */
export type PartType = Omit<CompiledType, 'info'>;
