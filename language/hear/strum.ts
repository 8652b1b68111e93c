/** The open strings of an instrument, plucked one after the other. */
import { pluckedString } from './plucked-string.js';

export type Tuning = 'guitar' | 'bass';

/** Usual open strings as semitones from A at 440 Hz, the lowest first: E A D G B E, and E A D G. */
export const tunings: Readonly<Record<Tuning, readonly number[]>> = {
  guitar: [-29, -24, -19, -14, -10, -5],
  bass: [-41, -36, -31, -26],
};

/** Seconds of one strum, between two strings, and of the end in which all is faded. */
const strumSeconds = 4;
const between = 0.09;
const fading = 0.4;
/** The largest sample: room for a resonance of 10 dB. */
const top = 0.3;

/** One strum as samples, to be played round and round: it begins and ends in silence. */
export function strum(tuning: Tuning, sampleRate: number): Float64Array {
  const count = Math.round(strumSeconds * sampleRate);
  const sum = new Float64Array(count);
  for (const [index, semitones] of tunings[tuning].entries()) {
    const begin = Math.round(index * between * sampleRate);
    const string = pluckedString(440 * 2 ** (semitones / 12), sampleRate, count - begin, index + 1);
    for (const [at, value] of string.entries()) sum[begin + at] = (sum[begin + at] ?? 0) + value;
  }
  const most = sum.reduce((high, value) => Math.max(high, Math.abs(value)), 0);
  return sum.map((value, at) => (value * top * Math.min(1, (count - 1 - at) / (fading * sampleRate))) / most);
}
