/** A type while its statements are read, and where its names and problems go. */
import type { Word } from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import type { Base, NameUse } from '../model.js';
import { nameList } from '../phrases.js';
import type { Problems } from '../problems.js';
import type { Spelling } from '../../nearest.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import { lugNamed, lugNames, createLugSpelling } from './lug-names.js';
import type {
  CompiledType,
  ElementDefinition,
  InnerJoint,
  InnerPart,
  LugDefinition,
  NumberedLugs,
  Parameter,
  PositionDefinition,
} from './type-model.js';

/** What a name turned out to be among the types. */
export type TypeFound = CompiledType | 'unknown' | 'circle' | 'deep';

/** The types that can be named, and where what is said about this text goes. */
export interface TypeContext {
  readonly uri: string;
  readonly problems: Problems;
  readonly names: NameUse[];
  readonly find: (name: string) => TypeFound;
  readonly typeNames: () => Spelling;
}

export interface TypeDraft {
  readonly name: string;
  readonly base: Base;
  readonly ancestry: readonly string[];
  readonly lugs: Map<string, LugDefinition>;
  numbered?: NumberedLugs;
  readonly aliases: Map<string, string>;
  rows: readonly (readonly (string | null)[])[];
  readonly parameters: Map<string, Parameter>;
  positions: PositionDefinition[];
  rest?: number;
  elements: ElementDefinition[];
  readonly parts: InnerPart[];
  readonly joints: InnerJoint[];
}

/** The lug or the point inside that a word names in the type's own body; reported where there is none. */
export function ownPoint(draft: TypeDraft, word: Word, origin: Origin, context: TypeContext): string | undefined {
  if (draft.lugs.get(word.text)?.inner !== true) return ownLug(draft, word, origin, context);
  recordLugUse(draft, word.text, word, rangeOn(origin, word.range), context);
  return word.text;
}

/** The lug of the type itself that a word in its body names; notes the mention, and tells where there is none. */
export function ownLug(draft: TypeDraft, word: Word, origin: Origin, context: TypeContext): string | undefined {
  if (isMissing(word)) return undefined;
  const range = rangeOn(origin, word.range);
  const named = lugNamed(draft, word.text, {});
  if (named.kind === 'lug') {
    recordLugUse(draft, named.name, word, range, context);
    return named.name;
  }
  const names = lugNames(draft);
  const has = names.length === 0 ? 'it has none yet: lugs A B' : `it has ${nameList(names)}`;
  context.problems.addMeant(
    'unknown-name',
    range,
    `${draft.name} has no lug ${word.text}; ${has}`,
    word.text,
    createLugSpelling(draft),
  );
  return undefined;
}

export function recordLugUse(draft: TypeDraft, lug: string, word: Word, range: SourceRange, context: TypeContext): void {
  const definition = draft.lugs.get(lug)?.range ?? draft.numbered?.range;
  context.names.push({
    kind: 'lug',
    range,
    isDefinition: false,
    name: word.text,
    ...(definition === undefined ? {} : { definition }),
  });
}

/** A word in the body of a type that names one of its parameters. */
export function recordParameterUse({ name, range: definition }: Parameter, range: SourceRange, context: TypeContext): void {
  context.names.push({ kind: 'property', range, isDefinition: false, name, ...(definition === undefined ? {} : { definition }) });
}

/** An optional lug that the type's own elements or wires name is there in every part of the type. */
export function require(draft: TypeDraft, lug: string): void {
  const definition = draft.lugs.get(lug);
  if (definition?.optional === true) draft.lugs.set(lug, { ...definition, optional: false });
}
