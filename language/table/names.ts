/** Names in a table as names of the language: `Neck PU` is `neck-pu`. */
import { append } from '../collections.js';
import { tokenize } from '../grammar/index.js';

/** The names of a table's parts. */
export interface PartNames {
  /** The part's name in the circuit, by what the table calls it. */
  nameOf(written: string): string;
  /** What the table calls a part, where that is not its name in the circuit. */
  writtenAs(name: string): readonly string[];
}

/** Names that the language takes stay; any other is changed, and is the same part as one that comes out alike. */
export function createPartNames(all: Iterable<string>): PartNames {
  const names = new Map<string, string>();
  const written = new Map<string, string[]>();
  for (const one of all) {
    if (names.has(one)) continue;
    const name = isName(one) ? one : nameFrom(one);
    names.set(one, name);
    if (name !== one) append(written, name, one);
  }
  return {
    nameOf: (one) => names.get(one) ?? nameFrom(one),
    writtenAs: (name) => written.get(name) ?? [],
  };
}

/** True where the language reads the text as one name. */
export function isName(text: string): boolean {
  const [token, ...more] = tokenize(text);
  return token?.kind === 'word' && token.image === text && more.length === 0;
}

/** A name made of the letters and digits of a text, in lower case. */
export function nameFrom(text: string): string {
  const plain = text
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}_]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  const name = /^\p{L}/u.test(plain) ? plain : `part-${plain}`.replace(/-$/, '');
  return isName(name) ? name : 'part';
}
