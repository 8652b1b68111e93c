/** The colours of wire on a drawing: IEC 60757 letters, and a slot with a light and a dark value each. */

interface Ink {
  readonly letters: string;
  /** On light paper, and on a dark screen. */
  readonly light: string;
  readonly dark: string;
}

/** In the order of IEC 60757's table. Values of our own, chosen apart from each other and to stand on either ground within a dark or light edge. */
export const inks: Readonly<Record<string, Ink>> = {
  black: { letters: 'BK', light: '#22252b', dark: '#0b0c0f' },
  brown: { letters: 'BN', light: '#84522c', dark: '#98633a' },
  red: { letters: 'RD', light: '#cc2b33', dark: '#df4048' },
  orange: { letters: 'OG', light: '#ee7d1b', dark: '#f68f35' },
  yellow: { letters: 'YE', light: '#f4ce29', dark: '#f6d648' },
  green: { letters: 'GN', light: '#2c8f4e', dark: '#3fa863' },
  blue: { letters: 'BU', light: '#2664bd', dark: '#4484dd' },
  violet: { letters: 'VT', light: '#7a46ae', dark: '#9765cb' },
  grey: { letters: 'GY', light: '#8d939b', dark: '#8f969f' },
  white: { letters: 'WH', light: '#fdfdfb', dark: '#f4f5f6' },
  pink: { letters: 'PK', light: '#f091ad', dark: '#f3a0b9' },
  gold: { letters: 'GD', light: '#b48a2c', dark: '#c69c3d' },
  turquoise: { letters: 'TQ', light: '#1fa9a6', dark: '#33bdb9' },
  silver: { letters: 'SR', light: '#bcc2c9', dark: '#c4cad1' },
};

/** `YE`, `WHRD`: the letters of a colour's words, written together as IEC 60757 does. */
export function lettersOf(colour: string): string {
  return colour
    .split('-')
    .map((word) => inks[word]?.letters ?? '')
    .join('');
}
