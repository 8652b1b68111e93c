/** What every plot of a response needs: its range of levels, its marks, and the level between two points. */
import { firstOf, itemAt, lastOf } from '../../../language/collections.js';
import type { ResponsePoint } from '../../../language/electrics/index.js';

/** Levels at or below this are drawn as silence. */
export const silence = -200;

/** Levels to show, multiples of 6 dB: from just above the highest, down to just below the lowest or `most` decibels lower. */
export function plotRange(points: readonly ResponsePoint[], most: number): { top: number; bottom: number } {
  const levels = points.map(({ db }) => db);
  const top = 6 * Math.ceil((Math.max(...levels) + 0.5) / 6);
  const lowest = 6 * Math.floor((Math.min(...levels) - 0.5) / 6);
  return { top, bottom: Math.min(top - 6, Math.max(top - most, lowest)) };
}

/** Level at a frequency within the band, straight between the points on a logarithmic scale. */
export function levelAt(points: readonly ResponsePoint[], hz: number): number {
  const above = points.findIndex((point) => point.hz >= hz);
  if (above <= 0) return (above === 0 ? firstOf(points) : lastOf(points)).db;
  const [a, b] = [itemAt(points, above - 1), itemAt(points, above)];
  const share = Math.log(hz / a.hz) / Math.log(b.hz / a.hz);
  return a.db + share * (b.db - a.db);
}

/** Frequencies to label, 1, 2 and 5 in each decade of the band; `isMain` for the powers of ten. */
export function decadeMarks(from: number, to: number): { hz: number; label: string; isMain: boolean }[] {
  const marks = [];
  for (let power = Math.floor(Math.log10(from)); power <= Math.log10(to); power++) {
    for (const first of [1, 2, 5]) {
      const hz = Number(`${first}e${power}`);
      if (hz >= from * 0.9999 && hz <= to * 1.0001) marks.push({ hz, label: shortHertz(hz), isMain: first === 1 });
    }
  }
  return marks;
}

function shortHertz(hz: number): string {
  if (hz >= 1e6) return `${hz / 1e6}M`;
  return hz >= 1000 ? `${hz / 1000}k` : String(hz);
}
