/** Figures as they are written for people and for programs. */

/** `6.05 kΩ`, three figures. */
export function ohms(value: number): string {
  return scaled(value, 'Ω');
}

/** `3.94 kHz`, three figures. */
export function hertz(value: number): string {
  return scaled(value, 'Hz');
}

/** `+6.2 dB`, one decimal; a true minus sign is left to print, here it is the plain one. */
export function decibels(value: number, isSigned = false): string {
  const text = value.toFixed(1).replace(/^-0\.0$/, '0.0');
  return `${isSigned && value > 0 && text !== '0.0' ? '+' : ''}${text} dB`;
}

/** For data: as many figures as mean something (six), without the noise of binary fractions. */
export function sixFigures(value: number): number {
  return Number(value.toPrecision(6));
}

/** For data in decibels and degrees: thousandths. */
export function thousandths(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}

function scaled(value: number, unit: string): string {
  // Rounded first, so that 999.6 becomes 1.00 k and not 1000.
  const rounded = Number(value.toPrecision(3));
  if (Math.abs(rounded) >= 1e6) return `${figures(rounded / 1e6)} M${unit}`;
  if (Math.abs(rounded) >= 1e3) return `${figures(rounded / 1e3)} k${unit}`;
  if (Math.abs(rounded) < 0.05) return `0 ${unit}`;
  return `${rounded >= 100 ? rounded.toFixed(0) : rounded.toFixed(1)} ${unit}`;
}

function figures(value: number): string {
  const whole = Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2;
  return value.toFixed(whole);
}
