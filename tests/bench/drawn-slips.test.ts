/** The slips of the benchmark of repairs, on a circuit small enough to list them by hand, and the interval of its shares. */
import { describe, expect, test } from 'vitest';
import { behaviourOf, likeness } from './repair/behaviour.js';
import { circuitOf } from './repair/drawn/circuits.js';
import { wilsonInterval } from './repair/drawn/interval.js';
import { slipKinds, slipsOf, type SlipKind } from './repair/drawn/slips.js';
import { apply } from './repair/files.js';

const text = `instrument "Alder Lane no. 300"
part bridge : single-coil
part neck : single-coil
part selector : lever-3
part volume : pot 250k audio
part tone : pot 250k audio
part cap : capacitor 22nF from tone.1 to tone.case
part output : jack
wire bridge.hot to selector.A1
wire neck.hot to selector.A3
wire selector.A0 to volume.3
wire volume.3 to tone.2
wire volume.2 to output.tip
wire volume.1 to output.sleeve
`;

const slips = slipsOf(circuitOf(text));

/** The lines that a slip makes out of those of the circuit. */
function changedBy(kind: SlipKind): readonly string[] {
  return slips.get(kind)!.map(({ edits }) =>
    apply(text, edits)
      .split('\n')
      .filter((line) => !text.split('\n').includes(line))
      .join('; '),
  );
}

describe('slips', () => {
  test.each(slipKinds)('there are some of: %s', (kind) => expect(slips.get(kind)!.length).toBeGreaterThan(0));
  test('another lug of the part', () => expect(changedBy('another lug of the part')).toContain('wire volume.2 to output.sleeve'));
  test('slips of a capacitor have a separate kind', () => {
    expect(changedBy('another lug of the part').join()).not.toContain('capacitor');
    expect(changedBy('capacitor on a wrong lug')).toContain('part cap : capacitor 22nF from tone.3 to tone.case');
  });
  test('the same lug of a twin', () => expect(changedBy('same lug of a twin part')).toContain('wire volume.3 to volume.2'));
  test('two exchanged', () =>
    expect(changedBy('two lugs exchanged')).toContain('wire bridge.hot to selector.A3; wire neck.hot to selector.A1'));
  test('a pot mirrored, everything on it', () =>
    expect(changedBy('pot mirrored')).toContain(
      'wire selector.A0 to volume.1; wire volume.1 to tone.2; wire volume.3 to output.sleeve',
    ));
  test('a pole mirrored', () =>
    expect(changedBy('switch pole mirrored')).toEqual(['wire bridge.hot to selector.A3; wire neck.hot to selector.A1']));
  test('a wire doubled', () => expect(changedBy('wire doubled')).toContain('wire selector.A0 to volume.2'));
  test('a wire forgotten', () =>
    expect(slips.get('wire forgotten')!.map(({ edits }) => apply(text, edits))).toContain(
      text.replace('wire volume.3 to tone.2', ''),
    ));
});

describe('what is counted', () => {
  const two = `${text}part other : jack
part rear : single-coil
part trim : pot 250k audio
wire rear.hot to trim.3
wire trim.2 to other.tip
wire trim.1 to rear.ground to other.sleeve
wire other.sleeve to output.sleeve
`;
  const likenessOf = (changed: string) => likeness(behaviourOf(circuitOf(two)), behaviourOf(circuitOf(changed)));

  test('what only the second jack gives', () =>
    expect(likenessOf(two.replace('wire rear.hot to trim.3', 'wire rear.hot to trim.2'))).toBe('different'));
  test('not the same by another wire', () =>
    expect(likenessOf(two.replace('wire volume.3 to tone.2', 'wire selector.A0 to tone.2'))).toBe('nets'));
});

/** R. G. Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in Medicine 17 (1998) 857–872, table I, method 3. */
test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])('the interval of %i in %i', (hits, cases, low, high) => {
  const [from, to] = wilsonInterval(hits, cases);
  expect(from).toBeCloseTo(low, 4);
  expect(to).toBeCloseTo(high, 4);
});
