/** Words as sentences have them, for every stage: lists and first letters. */

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[], joiner: 'and' | 'or' = 'and'): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${joiner} ${words.at(-1) ?? ''}`;
}

/** The same for a list that may be long: beyond `most` the rest is counted, as in `a, b, c, d and 2 more`. */
export function abridged(words: readonly string[], joiner: 'and' | 'or' = 'and', most = 5): string {
  return listed(words.length > most ? [...words.slice(0, most - 1), `${words.length - most + 1} more`] : words, joiner);
}

/** With the first letter that a sentence has. */
export function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
