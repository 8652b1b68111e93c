/** Numbers of wires: given ones stand, the others take the lowest that are free; and writing them all down changes none. */
import { describe, expect, test } from 'vitest';
import { edited } from '../../language/edited.js';
import { numberEdits } from '../../language/circuit/index.js';
import { parseText } from '../../language/grammar/index.js';
import { circuitOf, jointsOf, soundCircuit, URI } from './harness.js';

const parts = `
part p : single-coil { lead hot white 300mm }
part volume : pot
part g : star
part out : jack
`;

/** Marks of the wires in the order of the text. */
function marks(text: string): (string | undefined)[] {
  return circuitOf(parts + text).joints.flatMap(({ kind, mark }) => (kind === 'wire' ? [mark] : []));
}

function numbered(text: string): string {
  return edited(text, numberEdits(parseText(URI, text), circuitOf(text)));
}

describe('which number a wire has', () => {
  test.each([
    ['in the order of the text', 'wire volume.1 to g\nwire volume.2 to out.tip', ['W1', 'W2']],
    [
      'a given one stands, others fill the gaps',
      'wire volume.1 to g\nwire volume.2 to out.tip no 1\nwire g to out.sleeve',
      ['W2', 'W1', 'W3'],
    ],
    ['each piece of a chain', 'wire volume.1 to volume.case to g to out.sleeve', ['W1', 'W2', 'W3']],
    ['pieces count on from a given one', 'wire volume.1 to volume.case to g no 7\nwire g to out.sleeve', ['W7', 'W8', 'W1']],
    [
      'and step over a number that is taken',
      'wire volume.1 to volume.case to g no 7\nwire g to out.sleeve no 8',
      ['W7', 'W9', 'W8'],
    ],
    ['a number for each piece', 'wire volume.1 to volume.case to g no 7 white no 3', ['W7', 'W3']],
    [
      'own leads are counted apart',
      'wire volume.1 to g\nwire p.hot to volume.3\nwire p.ground to g red no 1',
      ['W2', 'L1', 'W1'],
    ],
    ['a lead may have the number of a wire', 'wire volume.1 to g no 2\nwire p.hot to volume.3 no 2', ['W2', 'L2']],
  ])('%s', (_, text, expected) => {
    expect(marks(text)).toEqual(expected);
  });

  test('a direct joint has none', () => {
    expect(soundCircuit(`${parts}solder volume.1 to volume.case`).joints[0]?.mark).toBeUndefined();
  });
});

describe('what is wrong with a number', () => {
  const problems = (text: string) =>
    circuitOf(parts + text).problems.map(({ rule, message, range, fixes }) => ({ rule, message, range, fixes }));

  test('two wires with one number: the second is marked, and the lowest free number is offered', () => {
    const [problem, ...others] = problems('wire volume.1 to g no 3\nwire volume.2 to out.tip no 3');
    expect(others).toEqual([]);
    expect(problem).toMatchObject({
      rule: 'duplicate-name',
      range: { start: { line: 6, character: 28 }, end: { line: 6, character: 29 } },
      fixes: [{ edits: [{ text: '2' }] }],
    });
    expect(problem?.message).toContain('two wires have the number W3');
  });

  test.each(['0', '4.5', '22awg', '1000000'])('%s is no number', (word) => {
    expect(problems(`wire volume.1 to g no ${word}`)).toMatchObject([{ rule: 'value' }]);
  });

  test('more numbers than pieces', () => {
    expect(problems('wire volume.1 to g no 1 no 2')).toMatchObject([{ rule: 'property' }]);
  });

  test('a wire inside a type', () => {
    const text = 'type pair : assembly {\n  lugs a b\n  wire a to b no 1\n}\npart t : pair';
    expect(circuitOf(text).problems).toMatchObject([{ rule: 'type' }]);
  });
});

describe('numbers written down', () => {
  const text = `${parts}
wire volume.1 to volume.case to g black // the case
wire p.hot to volume.3 to out.tip shielded screen to out.sleeve
wire g to out.sleeve no 2
wire volume.2
  to volume.case
`;

  test('each wire gets its own, behind what it says and before its comment', () => {
    expect(numbered(text).split('\n').slice(6)).toEqual([
      'wire volume.1 to volume.case to g black no 1 no 3 // the case',
      'wire p.hot to volume.3 to out.tip shielded screen to out.sleeve no 1 no 4',
      'wire g to out.sleeve no 2',
      'wire volume.2',
      '  to volume.case no 5',
      '',
    ]);
  });

  test('changes no number and no joint, and a second time nothing', () => {
    const [before, after] = [circuitOf(text), circuitOf(numbered(text))];
    expect(after.problems).toEqual(before.problems);
    expect(after.joints.map(({ mark }) => mark)).toEqual(before.joints.map(({ mark }) => mark));
    expect(jointsOf(after)).toEqual(jointsOf(before));
    expect(numbered(numbered(text))).toBe(numbered(text));
  });

  test('a wire that is added above then moves none of them', () => {
    const written = numbered(text);
    const more = circuitOf(written.replace('wire volume.1', 'wire volume.1 to out.tip\nwire volume.1'));
    const kept = more.joints.filter(({ kind, range }) => kind === 'wire' && range.start.line > 7).map(({ mark }) => mark);
    const before = circuitOf(written).joints.filter(({ kind, range }) => kind === 'wire' && range.start.line > 6);
    expect(kept).toEqual(before.map(({ mark }) => mark));
    expect(more.joints[0]?.mark).toBe('W6');
  });
});
