/** Text of the user's made plain for Markdown, as the sites that show it read it. */
import { printable } from './terminal.js';

/** Shown as nothing, and breaks what a site would make a link of. */
const joiner = '\u2060';

/**
 * The text as it is, on one line: marks of Markdown are escaped, and what a site would turn into a mention, a reference to an issue, a link
 * or a formula no longer looks like one.
 */
export function plainMarkdown(text: string): string {
  return printable(text)
    .replace(/\s+/g, ' ')
    .replace(/[\\|*_`~<>[\]{}$&]/g, (mark) => (mark === '&' ? '&amp;' : mark === '<' ? '&lt;' : `\\${mark}`))
    .replace(/([@#])(?=[\p{L}\p{N}])/gu, `$1${joiner}`)
    .replace(/\b(GH)-(?=\d)/gi, `$1${joiner}-`)
    .replace(/:(?=\/\/)/g, `:${joiner}`)
    .replace(/\bwww\.(?=\S)/gi, `www${joiner}.`)
    .replace(/^(\s*)([-+]|\d+[.)]|#{1,6})(?=\s|$)/, '$1\\$2');
}
