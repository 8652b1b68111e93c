/** What is offered while typing: one entry, in the language's own terms. */
import { CompletionItemKind, InsertTextFormat, type CompletionItem, type MarkupContent, type Range } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.js';
import type { Snapshot } from '../workspace.js';
import type { Typing } from '../typing.js';

/** Where and what is being typed. */
export interface CompletionContext extends Typing {
  readonly at: Snapshot;
  readonly analysis: Analysis;
  /** Paths of the other files of the folders, relative to this one. */
  readonly paths: readonly string[];
}

export interface Offer {
  readonly label: string;
  readonly kind: CompletionItemKind;
  /** Text put in, where it is another than the label. */
  readonly text?: string;
  /** True where the text has places to fill in. */
  readonly isSnippet?: boolean;
  readonly detail?: string;
  /** Offers of a smaller rank come first; 5 where nothing is said. */
  readonly rank?: number;
  readonly docs?: string;
  /** What the docs are made from when they are asked for. */
  readonly about?: About;
  readonly isPreselected?: boolean;
  /** Characters that take the offer and are typed behind it. */
  readonly commits?: readonly string[];
}

/** A thing whose docs are long: they are sent when somebody looks at them. */
export type About =
  { readonly kind: 'type'; readonly uri: string; readonly name: string } | { readonly kind: 'rule'; readonly name: string };

/** Offers as the protocol has them, in their order. */
export function toItem(offer: Offer, index: number, range: Range): CompletionItem {
  const { label, kind, text, isSnippet, detail, rank = 5, docs, about, isPreselected, commits } = offer;
  return {
    label,
    kind,
    sortText: `${rank}${String(index).padStart(5, '0')}`,
    textEdit: { range, newText: text ?? label },
    // A quoted name is found by its letters with the quote that has been typed.
    filterText: text?.startsWith('"') === true ? text : label,
    ...(isSnippet === true ? { insertTextFormat: InsertTextFormat.Snippet } : {}),
    ...(detail === undefined ? {} : { detail }),
    ...(docs === undefined ? {} : { documentation: markdown(docs) }),
    ...(about === undefined ? {} : { data: about }),
    ...(isPreselected === true ? { preselect: true } : {}),
    ...(commits === undefined ? {} : { commitCharacters: [...commits] }),
  };
}

export function markdown(value: string): MarkupContent {
  return { kind: 'markdown', value };
}

/** Braces with the cursor between them. */
export const braces: Offer = {
  label: '{ }',
  kind: CompletionItemKind.Snippet,
  text: '{ $0 }',
  isSnippet: true,
  detail: 'properties',
};

/** Words of the language. */
export function words(list: readonly string[], detail?: string, rank?: number): Offer[] {
  return list.map((label) => ({
    label,
    kind: CompletionItemKind.Keyword,
    ...(detail === undefined ? {} : { detail }),
    ...(rank === undefined ? {} : { rank }),
  }));
}

/** The points of a taper that was measured, to be filled in. */
export const measuredTaper: Offer = {
  label: '"0 0%, 5 15%, 10 100%"',
  text: '"0 0%, ${1:5 15%}, 10 100%"',
  isSnippet: true,
  kind: CompletionItemKind.Snippet,
  detail: 'measured points: a rotation and the share of the resistance up to the wiper each',
};

/** One of several words that a property may be. */
export function choices(list: readonly string[], detail: string, rank?: number): Offer[] {
  return list.map((label) => ({ label, kind: CompletionItemKind.EnumMember, detail, ...(rank === undefined ? {} : { rank }) }));
}
