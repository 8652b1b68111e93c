/** Figures as they are written for people and for programs. */
import { formatQuantity } from '../../../language/grammar/index.js';

/** `6.05 kΩ`, three figures; what no meter would tell from nought is nought. */
export function ohms(value: number): string {
  return formatQuantity(value < 0.05 ? 0 : value, 'ohm');
}

/** `3.00 kΩ`: a limit keeps its three figures, so that two of them are written alike. */
export function limit(value: number): string {
  return formatQuantity(value < 0.05 ? 0 : value, 'ohm', 3, true);
}

/** `3.94 kHz`, three figures. */
export function hertz(value: number): string {
  return formatQuantity(value, 'hertz');
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
