/** Figures as they are read aloud and written on axes. */

/** `82 Hz`, `3.99 kHz`. */
export function hertz(value: number): string {
  return value < 1000 ? `${Math.round(value)} Hz` : `${(value / 1000).toFixed(value < 10_000 ? 2 : 1)} kHz`;
}

/** `+8.1 dB`, `−6.0 dB`. */
export function decibels(value: number, isSigned = false): string {
  const text = Math.abs(value).toFixed(1);
  if (text === '0.0') return '0.0 dB';
  return `${value < 0 ? '−' : isSigned ? '+' : ''}${text} dB`;
}
