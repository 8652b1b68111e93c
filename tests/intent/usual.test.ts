/** What the positions of a circuit usually give, chosen without being asked. What is expected is the usual practice of the trade, written out by hand. */
import { describe, expect, it } from 'vitest';
import { usualOf, usualText } from '../../language/intent/index.js';
import { exampleNames } from '../examples/harness.js';
import { circuitOf, example } from './harness.js';

const withoutClaims = (text: string): string => text.replace(/^expect .*(\n +.*)*\n/gm, '');

/** Lines with one space between words, and what sounds instead. */
function usual(text: string): readonly string[] | undefined {
  return usualOf(circuitOf(withoutClaims(text)))?.lines.map(
    ({ line, now }) => line.replace(/ +/g, ' ') + (now === undefined ? '' : ` // now ${now}`),
  );
}

/** Three single-coils, positions without names, wired from bridge to neck; declared from neck to bridge. */
const lever = `instrument "Alder Lane no. 70"
part neck, middle, bridge : single-coil 6k
part selector : lever-5
part out : jack
wire bridge.hot to selector.A1
wire middle.hot to selector.A2
wire neck.hot to selector.A3
wire selector.A0 to out.tip
wire neck.ground to middle.ground to bridge.ground to out.sleeve
`;

describe('the order of the pickups', () => {
  it('is that of the names of the positions', () => {
    const named = lever.replace(
      ': lever-5',
      ': lever-5 { positions "neck" "neck and middle" "middle" "middle and bridge" "bridge" }',
    );
    expect(usual(named)).toEqual([
      'expect selector "neck" : sounds neck // now bridge',
      'expect selector "neck and middle" : sounds parallel(neck, middle) // now parallel(bridge, middle)',
      'expect selector "middle" : sounds middle',
      'expect selector "middle and bridge" : sounds parallel(middle, bridge) // now parallel(middle, neck)',
      'expect selector "bridge" : sounds bridge // now neck',
    ]);
  });

  it('else that in which the switch brings them now', () => {
    expect(usual(lever)).toEqual([
      'expect selector 1 : sounds bridge',
      'expect selector 2 : sounds parallel(bridge, middle)',
      'expect selector 3 : sounds middle',
      'expect selector 4 : sounds parallel(middle, neck)',
      'expect selector 5 : sounds neck',
    ]);
  });

  it('else that in which they are declared', () => {
    const dead = lever.replace('wire selector.A0 to out.tip\n', '');
    expect(usual(dead)?.[0]).toBe('expect selector 1 : sounds neck // now silent');
    expect(usual(dead)?.[4]).toBe('expect selector 5 : sounds bridge // now silent');
  });

  it('is not moved by one lead on the wrong pole', () => {
    const wrong = usualOf(circuitOf(lever.replace('neck.hot to selector.A3', 'neck.hot to selector.B3')));
    expect(wrong?.lines[4]).toEqual({ line: 'expect selector 5 : sounds neck', now: 'silent' });
    expect(wrong?.lines[0]?.now).toBeUndefined();
  });
});

describe('the pattern', () => {
  it('goes by the positions of the selector, and by what the other switches are for', () => {
    expect(usual(example('two-single-coils-lever-4'))).toContain('expect selector "series" : sounds series(bridge, neck)');
    expect(usual(example('push-pull-coil-split'))).toEqual(
      expect.arrayContaining([
        'expect selector "both", tone down : sounds parallel(neck, bridge)',
        // The neck's split leaves the other coil, so that the two together don't hum; see the example.
        'expect selector "both", tone up : sounds parallel(neck.south, bridge.north)',
      ]),
    );
    expect(usual(example('phase-switch'))).toContain(
      'expect selector "both", phase "turned" : sounds parallel(bridge, reversed neck)',
    );
    expect(usual(example('four-lead-humbucker-mini-switch'))).toEqual([
      'expect mode "series" : sounds bridge',
      'expect mode "single" : sounds bridge.north',
      'expect mode "parallel" : sounds parallel(bridge.north, bridge.south)',
    ]);
    expect(usual(example('kill-switch-straight-to-jack'))?.join()).not.toContain('kill');
  });

  it('of a muted position is silence', () => {
    const muted = lever
      .replace('part out', 'part mute : mini-spdt { positions "play" "mute" }\npart out')
      .replace('wire selector.A0 to out.tip', 'wire selector.A0 to mute.A1\nwire mute.A0 to out.tip');
    expect(usual(muted)).toContain('expect mute "mute" : silent');
  });

  it.each([
    ['a tap', 'tapped-single-coil-no-load-tone'],
    ['positions of which some are split', 'four-pole-lever-split-and-capacitors'],
    ['two outputs', 'two-jacks-for-two-amplifiers'],
    ['two circuits', 'bass-two-circuits-four-cavities'],
  ])('is not known of %s', (_, name) => {
    expect(usual(example(name))).toBeUndefined();
  });

  it('is not known where the names of the positions contradict it, or most positions give something else', () => {
    expect(usual(lever.replace(': lever-5', ': lever-5 { positions "neck" "bridge" "middle" "a" "b" }'))).toBeUndefined();
    const odd = lever.replace('to selector.A1', 'to selector.A1 to selector.A2 to selector.A3');
    expect(usual(odd)).toBeUndefined();
  });
});

it('agrees with every example that it knows, which are right', () => {
  const known = exampleNames('')
    .map((file) => file.replace(/\.lug$/, ''))
    .flatMap((name) => {
      const found = usualOf(circuitOf(withoutClaims(example(name))));
      return found === undefined ? [] : [{ name, found }];
    });
  expect(known.length).toBeGreaterThan(10);
  expect(known.filter(({ found }) => found.differing > 0).map(({ name, found }) => `${name}: ${usualText(found)}`)).toEqual([]);
});
