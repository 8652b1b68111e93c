/** Whole statements with places to fill in, and what the grammar alone says may follow in one. */
import { CompletionItemKind } from 'vscode-languageserver';
import {
  bodyWords,
  entryOf,
  formOf,
  isHeadWord,
  nextOf,
  statementWords,
  type HeadWord,
} from '../../../language/grammar/index.js';
import { braces, words, type CompletionContext, type Offer } from './item.js';
import { endOffers } from './lugs.js';
import { typeNames } from './part.js';

/** What a base has no use for is not offered in its body. */
const notIn: Readonly<Record<string, readonly HeadWord[]>> = {
  pickup: ['positions', 'at', 'rest', 'track', 'gain', 'battery'],
  passive: ['positions', 'at', 'rest', 'track', 'gain', 'coil'],
  metal: ['positions', 'at', 'rest', 'track', 'gain', 'coil', 'takes'],
};

/** Statements that may stand here; what a file has once is left out where it is written already. */
export function statementOffers(asked: CompletionContext): Offer[] {
  const { scope, type, at } = asked;
  const written = new Set<string>(at.tree.statements.map(({ kind }) => kind));
  const unfit = new Set<string>(scope === 'type' ? (notIn[type?.base ?? ''] ?? []) : []);
  return (scope === 'type' ? bodyWords : statementWords)
    .filter((word) => !unfit.has(word) && !(entryOf(word).once === true && written.has(word)))
    .map((word) => {
      const { summary, snippet, inside } = entryOf(word);
      const text =
        word === 'part' && scope === 'file' ? withTypes(snippet, asked) : scope === 'type' ? (inside ?? snippet) : snippet;
      return {
        label: word,
        kind: CompletionItemKind.Snippet,
        text,
        isSnippet: true,
        detail: summary,
        docs: `\`${formOf(word)}\``,
      };
    });
}

/** A part statement whose type is chosen from a list that opens by itself when the cursor gets there. */
function withTypes(snippet: string, asked: CompletionContext): string {
  return snippet.replace(/\$\{2:\w+\}/, `\${2|${typeNames(asked).join(',')}|}`);
}

/** What may follow in a statement that nothing more is known of: words of the language, lugs, braces, a text. */
export function grammarOffers(asked: CompletionContext): Offer[] {
  const { head, before } = asked;
  if (head === undefined || !isHeadWord(head)) return [];
  const { words: next, slots } = nextOf(head, [{ kind: 'word', image: head }, ...before.slice(1)]);
  const rules = new Set(slots.map(({ of }) => of));
  return [
    ...(rules.has('Dotted') || next.includes('.') ? endOffers(asked) : []),
    ...words(next.filter((word) => /^[a-z]/.test(word))),
    ...(rules.has('Quote')
      ? [{ label: '""', text: '"$1"', isSnippet: true, kind: CompletionItemKind.Text, detail: 'a text' }]
      : []),
    ...(next.includes('{') ? [braces] : []),
  ];
}
