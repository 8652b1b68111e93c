/** Numbers from 0 to 1, the same again for the same name and seed. */

/** The mulberry32 recurrence (T. Ettinger, public domain), begun from the letters of the name. */
export function createRandom(name: string, seed: number): () => number {
  let state = [...name].reduce((sum, letter) => (Math.imul(sum, 31) + letter.codePointAt(0)!) >>> 0, seed >>> 0);
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
