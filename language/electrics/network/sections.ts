/** What the bands of an amplifier stage do along the frequency axis: each is a section of the first or second order. */
import type { Band, Gain } from '../../circuit/model.js';

/**
 * A section passes `direct` times its input and `through` times its filtered input. `low-pass`: 1 / (1 + jω/w). `bell`: B jω / ((jω)² + B jω + w²), with
 * B its `width` in radians a second.
 */
export interface Section {
  readonly kind: 'low-pass' | 'bell';
  /** Radians a second. */
  readonly w: number;
  readonly width: number;
  readonly direct: number;
  readonly through: number;
}

/** Ratio of a bell's frequency to its width where it neither lifts nor cuts: 0.7, about two octaves (a usual mid control, from memory). */
const bellQ = 0.7;

/**
 * The sections of a stage with its knobs at these rotations, by shaft. With A the lift as a ratio, a shelf is half of it in dB at its frequency, lifted or cut:
 * bass (s + w √A) / (s + w / √A), treble A (s + w / √A) / (s + w √A), mid (s² + s √A B + w²) / (s² + s B / √A + w²); U. Zölzer (ed.), "DAFX: Digital
 * Audio Effects", 2nd edition, 2011, chapter 2, gives such shelves and peaks as filters.
 */
export function sectionsOf({ bands = [] }: Gain, rotations: readonly number[]): readonly Section[] {
  return bands.map((band) => sectionOf(band, rotations));
}

function sectionOf(band: Band, rotations: readonly number[]): Section {
  const w = 2 * Math.PI * band.hz;
  if (band.kind === 'pole') return { kind: 'low-pass', w, width: 0, direct: 0, through: 1 };
  const turned = band.shaft === undefined ? 1 : ((rotations[band.shaft] ?? 5) - 5) / 5;
  const lift = 10 ** ((band.db * turned) / 20);
  const root = Math.sqrt(lift);
  switch (band.kind) {
    case 'bass':
      return { kind: 'low-pass', w: w / root, width: 0, direct: 1, through: lift - 1 };
    case 'treble':
      return { kind: 'low-pass', w: w * root, width: 0, direct: lift, through: 1 - lift };
    case 'mid':
      return { kind: 'bell', w, width: w / bellQ / root, direct: 1, through: lift - 1 };
  }
}

/** What the sections make of one volt at a frequency in hertz. */
export function shapeAt(sections: readonly Section[], hz: number): { readonly re: number; readonly im: number } {
  const omega = 2 * Math.PI * hz;
  let [re, im] = [1, 0];
  for (const { kind, w, width, direct, through } of sections) {
    // The filter as 1 / (1 + j t): a low pass has t = ω/w, a bell t = (ω − w²/ω) / B.
    const t = kind === 'low-pass' ? omega / w : (omega - (w * w) / omega) / width;
    const size = through / (1 + t * t);
    const [x, y] = [direct + size, -size * t];
    [re, im] = [re * x - im * y, re * y + im * x];
  }
  return { re, im };
}
