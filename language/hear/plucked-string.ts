/** A plucked string, computed. */

/** Seconds in which the fundamental falls by 60 dB; the partials above it fall faster by themselves. */
const decay = 5;

/**
 * Samples of a plucked string of `hz`: a burst of noise goes round a delay line of one period and is averaged with the sample before at each round, so that
 * its high partials die first. K. Karplus and A. Strong, "Digital Synthesis of Plucked-String and Drum Timbres", Computer Music Journal 7(2), 1983. The
 * average delays by half a sample; the rest of the period that is no whole sample is made up by a first-order all-pass, as D. A. Jaffe and J. O. Smith do in
 * "Extensions of the Karplus-Strong Plucked-String Algorithm" in the same issue. The noise is the same at each call with the same `seed`, so that two
 * settings are heard with the same pluck.
 */
export function pluckedString(hz: number, sampleRate: number, count: number, seed = 1): Float64Array {
  const period = sampleRate / hz - 0.5;
  const whole = Math.floor(period - 0.1);
  const rest = period - whole;
  const bend = (1 - rest) / (1 + rest);
  const loss = 10 ** (-3 / (hz * decay));
  const line = noise(whole, seed);
  const samples = new Float64Array(count);
  let [last, input, output] = [0, 0, 0];
  for (let n = 0; n < count; n++) {
    const at = n % whole;
    const now = line[at] ?? 0;
    samples[n] = now;
    const average = (loss * (now + last)) / 2;
    last = now;
    output = bend * average + input - bend * output;
    input = average;
    line[at] = output;
  }
  return samples;
}

/** Between −1 and 1, without a constant part, which would not die away: a linear congruential generator modulo 2³² (multiplier and increment from memory). */
function noise(count: number, seed: number): Float64Array {
  let state = seed >>> 0;
  const values = Float64Array.from({ length: count }, () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  });
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  return values.map((value) => value - mean);
}
