/** Claims of cut-off and level, held against closed forms on both sides of their span. */
import { describe, expect, it } from 'vitest';
import { findings } from '../../language/findings.js';
import { circuitOf } from './harness.js';

/** Expectations that fail, or cannot be judged. */
function reported(text: string): readonly string[] {
  return findings(circuitOf(text))
    .filter(({ rule }) => rule === 'expectation' || rule === 'open-question')
    .map(({ message }) => message);
}

/** A coil that is next to nothing but 10 kΩ, so that lead and amplifier make a plain RC corner of it. */
const corner = (claims: string): string => `instrument "Corner"
part p : single-coil 10k 10uH 1pF
part output : jack
rig { cable 2nF, input 1M }
wire p.hot to output.tip
wire p.ground to output.sleeve
expect : ${claims}
`;

describe('a plain RC corner', () => {
  // f = 1/(2πRC) (textbook) with R = 10 k ∥ 1 M, C = 2 nF + 1 pF.
  const hz = 1 / (2 * Math.PI * (1 / (1 / 10e3 + 1 / 1e6)) * 2.001e-9);
  const off = (share: number): string => `cutoff ${(hz * share).toFixed(1)}Hz within 1%`;

  it('is found within its share, and not outside it', () => {
    expect(reported(corner(off(1)))).toEqual([]);
    expect(reported(corner(off(0.992)))).toEqual([]);
    // The reference is the level at the middle of 80 Hz to 1.3 kHz, where the corner takes 0.007 dB: it lies 0.2 % higher.
    expect(reported(corner(off(0.98)))).toEqual([
      expect.stringMatching(/^Expected 3 dB down at 7\.87kHz within 1%, but it is 3 dB down at 8\.05kHz$/),
    ]);
    expect(reported(corner(off(1.02)))).toHaveLength(1);
  });

  it('lies within 5 % where nothing is said', () => {
    expect(reported(corner(`cutoff ${(hz * 1.04).toFixed(1)}Hz`))).toEqual([]);
    expect(reported(corner(`cutoff ${(hz * 1.06).toFixed(1)}Hz`))).toHaveLength(1);
  });

  it('has its divider at low frequencies, and half the power there where it falls', () => {
    const low = 20 * Math.log10(1e6 / 1.01e6);
    const half = low - 10 * Math.log10(2);
    const at = `at ${hz.toFixed(1)}Hz within 0.02dB`;
    expect(reported(corner(`level ${low.toFixed(3)}dB at 20Hz within 0.01dB, level ${half.toFixed(3)}dB ${at}`))).toEqual([]);
    expect(reported(corner(`level ${(half + 0.1).toFixed(3)}dB ${at}`))).toEqual([
      'Expected a level of -3dB at 8.03kHz within 0.02dB, but the level at 8.03kHz is -3.1dB',
    ]);
  });
});

/** A source of next to no resistance before a linear volume of 250 k, into 1 M. */
const divider = (claims: string): string => `instrument "Divider"
part p : single-coil 1R 1mH 1pF
part volume : pot 250k linear
part output : jack
wire p.hot to volume.3
wire volume.2 to output.tip
wire volume.1 to p.ground to output.sleeve
${claims}
`;

// check-values: 250 k linear at half and at 10 % into 1 MΩ, ideal source (grade C).
it.each([
  ['5', -6.547],
  ['1', -20.193],
])('a linear volume at %s: %d dB', (at, db) => {
  expect(reported(divider(`expect volume ${at} : level ${db}dB at 20Hz within 0.01dB`))).toEqual([]);
  expect(reported(divider(`expect volume ${at} : level ${db + 0.5}dB`))).toEqual([]);
  expect(reported(divider(`expect volume ${at} : level ${db + 1.1}dB`))).toHaveLength(1);
});

it('a flat response has no corner, a silent one no level', () => {
  const flat = divider('rig { cable 0pF }\nexpect : cutoff 5kHz\nexpect volume 0 : level -20dB');
  expect(reported(flat)).toEqual([
    'Expected 3 dB down at 5kHz, but the level is nowhere 3 dB down below 20kHz',
    'Expected a level of -20dB at volume 0, but nothing is heard',
  ]);
});

describe('a value that is not known yet', () => {
  const text = (cap: string, claims: string): string => `instrument "Traced"
part p : single-coil 7k 3H 100pF
part volume : pot 250k audio
part tone : pot 250k audio
part tone-cap : capacitor ${cap} from tone.1 to tone.case
part spare : capacitor ? from volume.case to output.sleeve
part output : jack
wire p.hot to volume.3 to tone.2
wire volume.2 to output.tip
wire volume.1 to volume.case to tone.case to p.ground to output.sleeve
${claims}
`;

  it('leaves a claim open that hangs on it', () => {
    expect(reported(text('?', 'expect tone 0 : cutoff 900Hz'))).toEqual([
      '3 dB down at 900Hz can’t be judged at tone 0: the value of tone-cap is not known yet',
    ]);
  });

  it('says nothing against a claim that does not', () => {
    expect(reported(text('?', 'expect : level -0.4dB'))).toEqual([]);
    expect(reported(text('22nF', 'expect tone 0 : cutoff 900Hz within 20%'))).toEqual([]);
  });
});
