/** Small Markdown for hovers and completion: tables and code, with whatever a text may hold made harmless. */

/** A table of two or more columns; the first row is its heading. Rows without a value are left out. */
export function table(rows: readonly (readonly (string | undefined)[])[]): string {
  const whole = rows.filter((row) => row.every((cell) => cell !== undefined)) as string[][];
  const [head, ...body] = whole.map(
    (row) => `| ${row.map((cell) => cell.replace(/\|/g, '\\|').replace(/\s+/g, ' ')).join(' | ')} |`,
  );
  if (head === undefined) return '';
  return [head, `|${whole[0]!.map(() => ' --- ').join('|')}|`, ...body].join('\n');
}

/** A word of the text as code; backticks in it cannot end it. */
export function code(text: string): string {
  const runs = [...text.matchAll(/`+/g)].map(([run]) => run.length);
  if (runs.length === 0) return `\`${text}\``;
  const fence = '`'.repeat(Math.max(...runs) + 1);
  return `${fence} ${text} ${fence}`;
}

/** Several, with commas, the rest counted beyond `most`. */
export function codes(words: readonly string[], most = 8): string {
  const shown = words.slice(0, most).map(code).join(', ');
  return words.length > most ? `${shown} and ${words.length - most} more` : shown;
}

/** Text that means itself: what people wrote in comments is not to become links or pictures. */
export function plain(text: string): string {
  return text.replace(/[\\`*_{}[\]<>()#+!|~-]/g, '\\$&');
}

export function paragraphs(...parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined && part !== '').join('\n\n');
}
