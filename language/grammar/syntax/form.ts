/** The form of a statement as people write it down, made from its rule: `solder LUG to LUG [to LUG]…`. */
import { isWordPattern, wordOf, type Pattern } from './pattern.js';
import { entryOf, ruleOf, type HeadWord } from './syntax.js';

/** The form of a statement: what may be left out in square brackets, `…` behind what may be repeated. */
export function formOf(word: HeadWord): string {
  const pattern = ruleOf(entryOf(word).rule);
  const [, ...rest] = typeof pattern !== 'string' && 'all' in pattern ? pattern.all : [];
  // The grammar knows a type's first line only.
  return written({ all: [word, ...rest, ...(word === 'type' ? ['{ … }'] : [])] });
}

/** What is filled in where one of these rules reads it; else it goes by the name of its place. */
const called: Readonly<Record<string, string>> = {
  Dotted: 'LUG',
  LugName: 'LUG',
  Cell: 'LUG',
  Block: '{ … }',
  Setting: 'SETTING',
  Claim: 'CLAIM',
};

/** Rules that are written out where they stand. */
const inline: ReadonlySet<string> = new Set(['Controls', 'Ends', 'Spot', 'Entry', 'Contact', 'Parameter']);

function written(pattern: Pattern): string {
  if (isWordPattern(pattern)) return wordOf(pattern);
  if ('of' in pattern) return slot(pattern);
  if ('all' in pattern) return row(pattern.all);
  if ('any' in pattern) return pattern.any.map(written).join(' | ');
  const inside = written(pattern.repeat);
  if (pattern.least === 1) return `${inside}…`;
  return pattern.many ? `[${inside}]…` : `[${inside}]`;
}

/** Things in a row; a comma that may be left out is shown only where a further one of the same begins with it. */
function row(parts: readonly Pattern[]): string {
  const shown = parts.flatMap((part, i) => (isOptionalComma(part) ? (i === 0 ? [','] : []) : [written(part)]));
  return shown.join(' ').replace(/ ,/g, ',').replace(/ \[,/g, '[,');
}

function isOptionalComma(pattern: Pattern): boolean {
  return typeof pattern !== 'string' && 'repeat' in pattern && pattern.repeat === ',';
}

function slot({ slot: name, of }: { readonly slot: string; readonly of: string }): string {
  if (inline.has(of)) return written(ruleOf(of));
  const word = (Object.hasOwn(called, of) ? called[of] : undefined) ?? name.replace(/s$/, '').toUpperCase();
  return of === 'Quote' ? `"${word}"` : word;
}
