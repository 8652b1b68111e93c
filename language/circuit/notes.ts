/** `tuning "E2 A2 D3 G3 B3 E4"`: the open strings, and their fundamentals. */
import type { StringNote } from './model.js';

/** Semitones of the letters above C. */
const LETTERS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const SIGNS: Readonly<Record<string, number>> = { '#': 1, '♯': 1, b: -1, '♭': -1 };
const noteForm = /^([A-G])([#♯b♭]?)(\d)$/u;

/**
 * A note by its name: letter, sharp or flat, octave. A4 is 440 Hz (ISO 16:1975), the others are equally tempered semitones from it, twelve an octave;
 * octaves begin at C, so that C4 is the C below A4. Undefined for what is no note.
 */
export function noteNamed(text: string): StringNote | undefined {
  const [, letter, sign = '', octave] = noteForm.exec(text) ?? [];
  if (letter === undefined || octave === undefined) return undefined;
  const semitones = (LETTERS[letter] ?? 0) - (LETTERS['A'] ?? 0) + (SIGNS[sign] ?? 0) + 12 * (Number(octave) - 4);
  return { name: text, hz: 440 * 2 ** (semitones / 12) };
}

/** A word of a tuning that is no note, and where in the text it begins. */
export interface WrongNote {
  readonly text: string;
  readonly from: number;
}

/** The notes of a tuning as they are written, separated by blanks or commas, and the words that are none. */
export function readNotes(text: string): { readonly notes: readonly StringNote[]; readonly wrong: readonly WrongNote[] } {
  const notes: StringNote[] = [];
  const wrong: WrongNote[] = [];
  for (const { 0: word, index } of text.matchAll(/[^\s,]+/gu)) {
    const note = noteNamed(word);
    if (note === undefined) wrong.push({ text: word, from: index });
    else notes.push(note);
  }
  return { notes, wrong };
}
