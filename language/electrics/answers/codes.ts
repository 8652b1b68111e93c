/** How values are printed on parts: the letter code of IEC 60062, and three digits in picofarads. */

const prefixes: readonly (readonly [number, string])[] = [
  [1e-12, 'p'],
  [1e-9, 'n'],
  [1e-6, 'µ'],
  [1e-3, 'm'],
  [1, ''],
  [1e3, 'K'],
  [1e6, 'M'],
  [1e9, 'G'],
];

/** IEC 60062: the letter stands for the decimal point: `R47`, `4R7`, `470R`, `4K7`, `47K3`, `4M7`; `p47`, `4n7`, `22n`. At most three figures. */
export function letterCode(value: number, unit: 'ohm' | 'farad'): string {
  if (!(value > 0) || !Number.isFinite(value)) return unit === 'ohm' && value === 0 ? '0R' : '?';
  const scale = prefixes.filter(([power]) => (unit === 'ohm' ? power >= 1 : power <= 1));
  const rounded = Number(value.toPrecision(3));
  // The largest prefix that leaves at least 1; the smallest of all for what lies below it.
  const [power, prefix] = scale.filter(([candidate]) => rounded >= candidate * (1 - 1e-9)).at(-1) ?? scale[0] ?? [1, ''];
  const letter = prefix === '' ? (unit === 'ohm' ? 'R' : 'F') : prefix;
  const [whole, fraction = ''] = String(Number((rounded / power).toPrecision(3))).split('.') as [string, string?];
  return `${whole === '0' ? '' : whole}${letter}${fraction}`;
}

/** Two figures and the number of zeros, in picofarads: 22 nF is `223`, 680 pF `681` (from memory). Undefined below 10 pF and above two figures of 10⁹ pF. */
export function threeDigitCode(farad: number): string | undefined {
  const picofarad = farad * 1e12;
  if (!(picofarad >= 9.95) || !(picofarad < 9.95e10)) return undefined;
  const zeros = Math.floor(Math.log10(picofarad * (1 + 1e-9))) - 1;
  const figures = Math.round(picofarad / 10 ** zeros);
  return figures === 100 ? `10${zeros + 1}` : `${figures}${zeros}`;
}
