/** Preferred values of IEC 60063: which one a value is, or is nearest to. */

export type Series = 'E6' | 'E12' | 'E24';

/** IEC 60063. Eight members of E24 are not the rounded powers (2.7 3.0 3.3 3.6 3.9 4.3 4.7 8.2), so the numbers stand here as they are. */
const e24 = [1, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2, 2.2, 2.4, 2.7, 3, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1];
const members: Readonly<Record<Series, readonly number[]>> = {
  E6: e24.filter((_, i) => i % 4 === 0),
  E12: e24.filter((_, i) => i % 2 === 0),
  E24: e24,
};

/** The member of a series nearest to a positive value by ratio, in the same unit; NaN for a value that is not positive. */
export function nearestPreferred(value: number, series: Series = 'E12'): number {
  if (!(value > 0) || value === Infinity) return NaN;
  const decade = Math.floor(Math.log10(value));
  // The neighbours across the decade's ends count too: 9.6 is nearer to 10 than to 8.2.
  const around = [decade - 1, decade, decade + 1].flatMap((power) => members[series].map((member) => scaled(member, power)));
  const distance = (candidate: number): number => Math.abs(Math.log(candidate / value));
  return around.reduce((best, candidate) => (distance(candidate) < distance(best) ? candidate : best));
}

/** True where a value is a member of the series, rounding of binary fractions allowed for. */
export function isPreferred(value: number, series: Series = 'E24'): boolean {
  return Math.abs(nearestPreferred(value, series) / value - 1) < 1e-9;
}

/** `member · 10^power` as the nearest number to the decimal figure, so that 4.7e-9 is what is printed. */
function scaled(member: number, power: number): number {
  return Number(`${member}e${power}`);
}
