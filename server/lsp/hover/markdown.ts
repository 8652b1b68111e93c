/** Small Markdown for hovers and completion: tables and code, with whatever a text may hold made harmless. */
import { firstOf } from '../../../language/collections.js';
import { escapeMarkdown, markdownCode } from '../../../language/escape.js';

export { markdownCode as code } from '../../../language/escape.js';

/** A table of two or more columns; the first row is its heading. Rows without a value are left out. */
export function table(rows: readonly (readonly (string | undefined)[])[]): string {
  const whole = rows.filter((row) => row.every((cell) => cell !== undefined)) as string[][];
  const [head, ...body] = whole.map(
    (row) => `| ${row.map((cell) => cell.replace(/(?<!\\)((?:\\\\)*)\|/g, '$1\\|').replace(/\s+/g, ' ')).join(' | ')} |`,
  );
  if (head === undefined) return '';
  return [
    head,
    `|${firstOf(whole)
      .map(() => ' --- ')
      .join('|')}|`,
    ...body,
  ].join('\n');
}

/** Several, with commas, the rest counted beyond `most`. */
export function codes(words: readonly string[], most = 8): string {
  const shown = words.slice(0, most).map(markdownCode).join(', ');
  return words.length > most ? `${shown} and ${words.length - most} more` : shown;
}

/** What people wrote in comments, paragraph by paragraph; nothing of it becomes a link, a picture or a heading. */
export function plain(text: string): string {
  return paragraphs(...text.split(/\r?\n\s*\r?\n/).map(escapeMarkdown));
}

export function paragraphs(...parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined && part !== '').join('\n\n');
}
