/** Words that no rule of the grammar spells: the bases of types, the words over which a line runs on, the colours of wire. */

/** What a type may be built on, besides another type. */
export const baseWords = ['pickup', 'switch', 'control', 'passive', 'metal', 'amplifier', 'assembly'] as const;

/** Words that join: a statement runs on over a line break where one side ends or begins with one. */
export const joiningWords = ['to', 'and', 'from', 'across', 'in', 'at', 'joins', 'within'] as const;

/** A colour of a wire: its name in this language and its letters in IEC 60757. */
export interface Colour {
  readonly name: string;
  readonly code: string;
}

/** IEC 60757, in the table's order; letters of two colours on one wire are written together in this order. */
export const colours: readonly Colour[] = [
  { name: 'black', code: 'BK' },
  { name: 'brown', code: 'BN' },
  { name: 'red', code: 'RD' },
  { name: 'orange', code: 'OG' },
  { name: 'yellow', code: 'YE' },
  { name: 'green', code: 'GN' },
  { name: 'blue', code: 'BU' },
  { name: 'violet', code: 'VT' },
  { name: 'grey', code: 'GY' },
  { name: 'white', code: 'WH' },
  { name: 'pink', code: 'PK' },
  { name: 'gold', code: 'GD' },
  { name: 'turquoise', code: 'TQ' },
  { name: 'silver', code: 'SR' },
];

const byWord = new Map<string, Colour>(
  colours.flatMap((colour) => {
    const names = colour.name === 'grey' ? ['grey', 'gray', colour.code] : [colour.name, colour.code];
    return names.map((name) => [name, colour] as const);
  }),
);

/**
 * Reads a wire's colour: a name (`white`), IEC 60757 letters (`BK`), two joined by a hyphen for a stripe (`white-red`, `WH-RD`),
 * or the letters of two written together (`RDBU`, `GNYE`). The answer holds one or two colours, body first as written;
 * `name` is the canonical word (`white-red`). `undefined` where the word is no colour.
 */
export function parseColour(word: string): { readonly name: string; readonly colours: readonly Colour[] } | undefined {
  const letters = /^[A-Z]{4}$/.test(word);
  const parts = letters ? [word.slice(0, 2), word.slice(2)] : word.split('-');
  if (parts.length > 2) return undefined;
  const found = parts.map((part) => byWord.get(part));
  if (!found.every((colour) => colour !== undefined)) return undefined;
  return { name: found.map((colour) => colour.name).join('-'), colours: found };
}
