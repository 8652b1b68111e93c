/** The colours of wire: the words of the language and the letters of IEC 60757 that mean the same. */

/** Colour words of the language, in the order of IEC 60757's table. */
export const COLOURS: readonly string[] = [
  'black',
  'brown',
  'red',
  'orange',
  'yellow',
  'green',
  'blue',
  'violet',
  'grey',
  'white',
  'pink',
  'gold',
  'turquoise',
  'silver',
];

/** Letters of IEC 60757, and other spellings of a word. */
const SAME = new Map<string, string>([
  ['bk', 'black'],
  ['bn', 'brown'],
  ['rd', 'red'],
  ['og', 'orange'],
  ['ye', 'yellow'],
  ['gn', 'green'],
  ['bu', 'blue'],
  ['vt', 'violet'],
  ['gy', 'grey'],
  ['wh', 'white'],
  ['pk', 'pink'],
  ['gd', 'gold'],
  ['tq', 'turquoise'],
  ['sr', 'silver'],
  ['gray', 'grey'],
  ['purple', 'violet'],
]);

/** The colour that a word names, in words (`BK` is `black`, `RDBU` is `red-blue`, `white-red` itself); `undefined` where it names none. */
export function colourOf(word: string): string | undefined {
  const parts = word.split('-');
  if (parts.length > 2) return undefined;
  if (parts.length === 2) {
    const [base, stripe] = parts.map(single);
    return base !== undefined && stripe !== undefined ? `${base}-${stripe}` : undefined;
  }
  const alone = single(word);
  if (alone !== undefined) return alone;
  // IEC 60757 writes two colours on one wire together: GNYE.
  if (!/^[A-Z]{4}$/.test(word)) return undefined;
  const [base, stripe] = [single(word.slice(0, 2)), single(word.slice(2))];
  return base !== undefined && stripe !== undefined ? `${base}-${stripe}` : undefined;
}

function single(word: string): string | undefined {
  const lower = word.toLowerCase();
  if (COLOURS.includes(lower)) return lower;
  return SAME.get(lower);
}
