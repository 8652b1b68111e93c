/** A text with replacements made in it. */
import type { Edit } from './source.js';

/** The text with edits that do not overlap. */
export function edited(text: string, edits: readonly Edit[]): string {
  const starts = [0, ...[...text.matchAll(/\r\n|\r|\n/g)].map((end) => end.index + end[0].length)];
  const offsetOf = ({ line, character }: Edit['range']['start']): number => (starts[line] ?? text.length) + character;
  return edits
    .map(({ range, text: put }) => ({ from: offsetOf(range.start), to: offsetOf(range.end), put }))
    .sort((a, b) => b.from - a.from)
    .reduce((made, { from, to, put }) => made.slice(0, from) + put + made.slice(to), text);
}
