/** Limits of a reading by the language's contract, worked out apart from the program. */

/** Copper at 5 K from 20 °C: 0.393 % for each (IEC 60028:1925). */
export const warmth = 0.00393 * 5;

/** What a meter may show between two resistances: it adds 1 % and one in the third digit, and the ends are rounded outwards to that digit. */
export function meterLimits(low: number, high: number): [number, number] {
  const digit = (ohm: number): number => (ohm > 0 ? 10 ** (Math.floor(Math.log10(ohm)) - 2) : 1);
  const [least, most] = [low * 0.99, high * 1.01];
  return [
    Math.max(0, Math.floor((least - digit(least)) / digit(least)) * digit(least)),
    Math.ceil((most + digit(most)) / digit(most)) * digit(most),
  ];
}
