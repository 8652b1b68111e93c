/** What is known while a text is lowered: the circuit so far, the types, the things that bear a name, and where problems go. */
import type { Word } from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import type { Cavity, Joint, NameUse, Plate } from '../model.js';
import { type Candidates, type ProblemDetails, type ProblemRule, Problems } from '../problems.js';
import { compareRanges } from '../ranges.js';
import type { TypeScope } from '../types/types.js';
import type { Builder, Draft, Instance } from './builder.js';
import type { Spellings } from './spellings.js';

/** Whatever a name can stand for outside types. Cavities and plates are parts as well where they are metal. */
export interface NamedItem {
  readonly kind: 'part' | 'cavity' | 'plate';
  readonly nameRange: SourceRange;
  readonly instance?: Instance;
  readonly cavity?: Draft<Cavity>;
  readonly plate?: Draft<Plate>;
}

/** A number that a wire is given, and where. */
export interface GivenNumber {
  readonly number: number;
  readonly range: SourceRange;
}

/** Problems and names, kept apart by file. */
export class FileReports {
  readonly #files = new Map<string, { readonly problems: Problems; readonly names: NameUse[] }>();

  of(uri: string): { readonly problems: Problems; readonly names: NameUse[] } {
    let file = this.#files.get(uri);
    if (file === undefined) {
      file = { problems: new Problems(), names: [] };
      this.#files.set(uri, file);
    }
    return file;
  }

  /** Every mention of a name in every file, from top to bottom. A statement that declares several parts mentions their lugs once. */
  names(): NameUse[] {
    const names = [...this.#files.values()].flatMap((file) => file.names).sort((a, b) => compareRanges(a.range, b.range));
    let before: NameUse | undefined;
    return names.filter((use) => {
      const isNew = before === undefined || compareRanges(before.range, use.range) !== 0;
      before = use;
      return isNew;
    });
  }
}

/** What names are looked up in, and where their uses and problems go. */
export interface Naming {
  readonly reports: FileReports;
  readonly namedItems: Map<string, NamedItem>;
  /** The names of `namedItems`, for what a misspelt one was meant for. */
  readonly spellings: Spellings;
}

export interface Lowering extends Naming {
  readonly builder: Builder;
  /** Wires to which the text gives a number. */
  readonly numbers: Map<Draft<Joint>, GivenNumber>;
  readonly scope: TypeScope;
  readonly hand: 'right' | 'left';
  /** How the instrument's diagram sees it, where that is said. */
  readonly seen?: 'front' | 'back';
}

/** Tells a problem in the file in which its place lies. */
export function report(
  state: Pick<Naming, 'reports'>,
  rule: ProblemRule,
  range: SourceRange,
  message: string,
  details?: ProblemDetails,
): void {
  state.reports.of(range.uri).problems.add(rule, range, message, details);
}

/** The same, with the nearest of several words offered. */
export function reportMisspelling(
  state: Pick<Naming, 'reports'>,
  rule: ProblemRule,
  range: SourceRange,
  message: string,
  { word, among }: { readonly word: string; readonly among: Candidates },
): void {
  state.reports.of(range.uri).problems.addMeant(rule, range, message, word, among);
}

/** Notes a mention of a name. */
export function recordUse(state: Pick<Naming, 'reports'>, use: Omit<NameUse, 'isDefinition'>, isDefinition = false): void {
  state.reports.of(use.range.uri).names.push({ ...use, isDefinition });
}

/** Gives a name to an item; a second item of the same name is reported and gets none. */
export function giveName(state: Lowering, word: Word, item: NamedItem): boolean {
  const before = state.namedItems.get(word.text);
  if (before !== undefined) {
    const share = before.kind === item.kind ? '' : `, and a ${item.kind} can’t have the same name`;
    report(state, 'duplicate-name', item.nameRange, `there is already a ${before.kind} ${word.text}${share}`, {
      related: [{ message: `the other ${word.text}`, range: before.nameRange }],
    });
    return false;
  }
  state.namedItems.set(word.text, item);
  state.spellings.add(word.text, item.kind);
  return true;
}
