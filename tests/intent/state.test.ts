/** `expect` lines for a whole instrument: what the examples claim by hand, and what patterns of the trade say. */
import { describe, expect, it } from 'vitest';
import { findings } from '../../language/findings.js';
import { linesOfNow, linesOfPattern } from '../../language/intent/index.js';
import { exampleNames } from '../examples/harness.js';
import { circuitOf, example } from './harness.js';

describe('from what is so now', () => {
  // Their expectations were worked by hand, position by position; they claim sound, hum and reading of each.
  it.each([
    'two-single-coils-lever-3',
    'three-single-coils-lever-5',
    'four-lead-humbucker-mini-switch',
    'push-pull-coil-split',
    'kill-switch-straight-to-jack',
  ])('%s: the lines that its writer worked by hand', (name) => {
    const text = example(name);
    const written = linesOfNow(circuitOf(text)).map(squeezed);
    const byHand = text
      .split('\n')
      .filter((line) => /^expect .*: sounds .*hum .*reads/.test(line))
      .map((line) => sortedMembers(squeezed(line)));
    expect(byHand.length).toBeGreaterThan(0);
    expect(written.map(sortedMembers)).toEqual(expect.arrayContaining(byHand));
  });

  it('hold in every example, with the pots turned as well', { timeout: 60_000 }, () => {
    for (const name of exampleNames('').map((file) => file.replace(/\.lug$/, ''))) {
      const text = example(name);
      const circuit = circuitOf(text);
      if (circuit.problems.some(({ severity }) => severity === 'error')) continue;
      const lines = linesOfNow(circuit, { turns: true });
      const again = circuitOf(`${text}\n${lines.join('\n')}\n`);
      expect(again.problems, name).toEqual(circuit.problems);
      expect(
        findings(again)
          .filter(({ rule }) => rule === 'expectation')
          .map(({ message }) => message),
        name,
      ).toEqual([]);
    }
  });

  it('say what a tone brings where it is turned down, and how a position is silenced', () => {
    // The figures are those of the general solver, which holds the examples' claims (tests/examples/response-claims).
    expect(linesOfNow(circuitOf(example('three-single-coils-lever-5'))).map(squeezed)).toEqual(
      expect.arrayContaining([
        'expect selector "bridge", rear-tone 0 : cutoff 853Hz',
        'expect selector "middle and neck", rear-tone 0 : cutoff 1.41kHz',
      ]),
    );
    const mute = (wires: string): readonly string[] =>
      linesOfNow(
        circuitOf(`instrument "Mute"
part p : single-coil 6k
part mute : mini-spdt { positions "play" "mute" }
part output : jack
wire p.hot to mute.A1
wire mute.A0 to output.tip
wire p.ground to output.sleeve${wires}
`),
      );
    expect(mute(' to mute.A2')).toContain('expect mute "mute" : silent, reads short');
    expect(mute('')).toContain('expect mute "mute" : silent, reads open');
  });

  it('state cut-off and level with every pot half way where the turns are asked for', () => {
    expect(linesOfNow(circuitOf(example('two-single-coils-lever-3')), { turns: true }).map(squeezed)).toContainEqual(
      expect.stringMatching(/^expect selector "both", volume 5, tone 5 : reads [\d.]+k, cutoff 4\.2kHz, level -17\.2dB$/),
    );
  });

  it('leave out a switch where it makes no difference, and a reading that is not known', () => {
    expect(linesOfNow(circuitOf(example('bass-two-circuits-four-cavities'))).map(squeezed)).toContain(
      'expect circuit "passive" : sounds neck, hum present, reads 9.24k',
    );
    expect(linesOfNow(circuitOf(example('old-instrument-traced'))).map(squeezed)).toContain(
      'expect selector "bridge" : sounds bridge, hum present',
    );
  });

  it('are none for a library and for a circuit without a jack', () => {
    expect(linesOfNow(circuitOf('type dark : pot {}\n'))).toEqual([]);
    expect(linesOfNow(circuitOf('part p : single-coil\n'))).toEqual([]);
  });
});

describe('from a pattern', () => {
  const lines = (name: string, patterns: readonly string[], order?: readonly string[]): readonly string[] => {
    const made = linesOfPattern(circuitOf(example(name)), patterns, order);
    return 'lines' in made ? made.lines.map(squeezed) : [made.problem];
  };

  it('three pickups on five positions', () => {
    expect(lines('three-single-coils-lever-5', ['neighbours'])).toEqual([
      'expect selector "bridge" : sounds bridge',
      'expect selector "bridge and middle" : sounds parallel(bridge, middle)',
      'expect selector "middle" : sounds middle',
      'expect selector "middle and neck" : sounds parallel(middle, neck)',
      'expect selector "neck" : sounds neck',
    ]);
  });

  it('the pickups in another order', () => {
    expect(lines('two-humbuckers-toggle-3', ['neighbours'], ['bridge', 'neck'])[0]).toBe(
      'expect selector "neck" : sounds bridge',
    );
  });

  it('with a split beside it', () => {
    const made = lines('push-pull-coil-split', ['neighbours', 'split']);
    expect(made).toContain('expect selector "both", tone down : sounds parallel(neck, bridge)');
    expect(made).toContain('expect selector "both", tone up : sounds parallel(neck.north, bridge.north)');
  });

  it('four ways of two pickups, and one pickup three ways', () => {
    expect(lines('two-single-coils-lever-4', ['four-ways'])).toContain('expect selector "series" : sounds series(bridge, neck)');
    expect(lines('four-lead-humbucker-mini-switch', ['coils'])).toContain(
      'expect mode "parallel" : sounds parallel(bridge.north, bridge.south)',
    );
  });

  it('says what does not fit', () => {
    expect(lines('one-pickup-volume-tone', ['neighbours'])[0]).toMatch(/^neighbours does not fit any switch/);
    expect(lines('two-single-coils-lever-3', ['nine-ways'])[0]).toMatch(/^there is no pattern nine-ways/);
    expect(lines('two-single-coils-lever-3', ['neighbours'], ['middle', 'neck'])).toEqual([
      'middle is not a pickup of this instrument',
    ]);
  });
});

/** One space between words, and no share beside a reading: 5 % is ours, the writer's may be narrower. */
function squeezed(line: string): string {
  return line
    .trim()
    .replace(/ +/g, ' ')
    .replace(/ within \d+%/g, '');
}

/** `parallel(neck, bridge)` as `parallel(bridge, neck)`: the order inside does not matter. */
function sortedMembers(line: string): string {
  return line.replace(/\(([^()]*)\)/g, (_, members: string) => `(${members.split(', ').sort().join(', ')})`);
}
