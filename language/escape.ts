/** Text of the user's made safe for what shows it: one function for each form, and every writer of that form goes through it. */

/**
 * Control characters (a terminal obeys them, XML forbids them), line ends that only some programs see, and marks that turn the direction
 * of writing for what follows (Unicode Technical Report 36). Those that only say how one letter is joined or read stay.
 */
// eslint-disable-next-line no-control-regex
const hidden = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;

/** The text with `mark` for each character that cannot be seen or that disturbs what shows it; tabs and line feeds stay. */
export function visible(text: string, mark = '\uFFFD'): string {
  return text.replace(hidden, mark);
}

/** For a terminal or a build's log, as a part of one line: hidden characters are `·`, and line feeds and tabs are spaces. */
export function oneLine(text: string): string {
  return visible(text, '·').replace(/[\t\n]+/g, ' ');
}

/** Shown as nothing, and breaks what a site would make a link of. */
const joiner = '\u2060';

/**
 * For Markdown, on one line: marks are escaped, and what a site would turn into a mention, a reference to an issue, an address or a formula
 * no longer looks like one. Safe in a paragraph, a list item, a heading and a cell of a table.
 */
export function escapeMarkdown(text: string): string {
  return visible(text, '·')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/[\\|*_`~<>[\]{}$&]/g, (mark) => references[mark] ?? `\\${mark}`)
    .replace(/(?<=[\p{L}\p{N}])@/gu, `${joiner}@`)
    .replace(/([@#])(?=[\p{L}\p{N}])/gu, `$1${joiner}`)
    .replace(/\b(GH)-(?=\d)/gi, `$1${joiner}-`)
    .replace(/:(?=\/\/)/g, `:${joiner}`)
    .replace(/\bwww\.(?=\S)/gi, `www${joiner}.`)
    .replace(/^([-+]|#{1,6})(?=\s|$)/, '\\$1')
    .replace(/^(-{2,}|=+)(?=\s*$)/, '\\$1')
    .replace(/^(\d{1,9})([.)])(?=\s|$)/, '$1\\$2');
}

/** Sites that let HTML through look for tags before they look for escapes. */
const references: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;' };

/** For Markdown, as code on one line; backticks in the text cannot end it. */
export function markdownCode(text: string): string {
  const shown = oneLine(text);
  const runs = [...shown.matchAll(/`+/g)].map(([run]) => run.length);
  if (runs.length === 0) return `\`${shown}\``;
  const fence = '`'.repeat(Math.max(...runs) + 1);
  return `${fence} ${shown} ${fence}`;
}

/** For XML, SVG and HTML, between tags and between quotes: what XML 1.0 does not allow is taken out or shown as a mark. */
export function escapeXml(text: string): string {
  return visible(text, '·')
    .replace(/[&<>"'\n]/g, (mark) => entities[mark] ?? mark)
    .replace(/[\ud800-\udfff\ufffe\uffff]/gu, '');
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
  '\n': '&#10;',
};

/**
 * For comma-separated values after RFC 4180. What a spreadsheet would run as a formula gets an apostrophe before it, also behind a semicolon
 * or a tab, where some spreadsheets begin the next cell.
 */
export function csvCell(text: string): string {
  const isNumber = /^-?\d+(\.\d+)?(e[+-]?\d+)?$/i.test(text);
  const shown = visible(text, '·');
  const inside = shown.replace(/([;\t\n]\s*)(?=[=+@＝＋＠]|[-－](?!\d))/g, "$1'");
  const safe = !isNumber && /^\s*[=+\-@＝＋－＠]|^[\t\r\n]/.test(text) ? `'${inside}` : inside;
  return /[",;\t\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** For the message of a hosted build's workflow command; line feeds stay line feeds of the message. */
export function annotationMessage(text: string): string {
  return visible(text, '·').replaceAll('%', '%25').replaceAll('\n', '%0A');
}

/** For a property of a workflow command, such as a file's path. */
export function annotationProperty(text: string): string {
  return annotationMessage(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}

/** For a comment of a SPICE deck, which ends with its line. */
export function deckComment(text: string): string {
  return visible(text, '·').replace(/\s+/g, ' ');
}

/** For a name in a SPICE deck. */
export function deckName(text: string): string {
  return text.replace(/[^A-Za-z0-9_]/g, '_');
}
