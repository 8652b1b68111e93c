/** Ohms, hertz, decibels and millimetres as a luthier writes them. */

/** `0.4R`, `470R`, `6.05k`, `1.2M`: three digits that count, the prefix of the trade. */
export function ohmText(ohm: number): string {
  if (ohm >= 999_500) return `${digits(ohm / 1e6)}M`;
  if (ohm >= 999.5) return `${digits(ohm / 1e3)}k`;
  return `${digits(ohm)}R`;
}

/** `3.00k`: a limit keeps its three figures, so that two of them are written alike. */
export function limitText(ohm: number): string {
  const [figure, letter] = ohm >= 999_500 ? [ohm / 1e6, 'M'] : ohm >= 999.5 ? [ohm / 1e3, 'k'] : [ohm, 'R'];
  return `${figure === 0 ? '0' : figure.toPrecision(3)}${letter}`;
}

/** `850Hz`, `3.2kHz`. */
export function hertzText(hz: number): string {
  return hz >= 999.5 ? `${digits(hz / 1e3)}kHz` : `${digits(hz)}Hz`;
}

/** `-6.2dB`, `0dB`: tenths where nothing is said, with the sign as it is written in the language. */
export function decibelText(db: number, decimals = 1): string {
  return `${Number(db.toFixed(decimals)) + 0}dB`;
}

/** `65 mm`, whole millimetres; tenths below ten. */
export function millimetres(metres: number): string {
  const mm = metres * 1000;
  return `${mm < 9.95 && Math.abs(mm - Math.round(mm)) > 0.05 ? mm.toFixed(1) : Math.round(mm)} mm`;
}

function digits(value: number): string {
  return String(Number(value.toPrecision(3)));
}
