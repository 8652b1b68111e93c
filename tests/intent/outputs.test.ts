/** Instruments with more than one output: what is heard at each follows from the drawing. */
import { describe, expect, it } from 'vitest';
import { factsOf } from '../../language/checks/index.js';
import { effectsAnywhere, heardAt, outputsOf, positionTable } from '../../language/electrics/index.js';
import { evaluate, linesOfNow, repairs } from '../../language/intent/index.js';
import { findings } from '../../language/findings.js';
import { circuitOf, lugOf, soundCircuit } from '../circuit/harness.js';
import { drawPractice } from '../practice/index.js';
import { withFix } from './harness.js';

const stereo = `instrument "Alder Lane no. 71"
part p : single-coil 6k 2H
part q : single-coil 7k 2H
part pick : toggle-3
part output : jack-stereo
wire p.hot to pick.A to output.tip
wire q.hot to pick.B to output.ring
wire p.ground to q.ground to output.sleeve
wire pick.frame to output.sleeve
`;

const rowsOf = (text: string): string[] =>
  positionTable(soundCircuit(text)).rows.map(({ output, label, sound, reads }) =>
    [output, label, sound.text, reads.ohm === null ? 'open' : reads.ohm.toFixed(0)].join(' | '),
  );

describe('the ring of a stereo jack', () => {
  it('is an output of its own with a stereo plug, where a pickup reaches it', () => {
    // The toggle's middle joins both contacts: 6k ∥ 7k = 3231 Ω with a stereo plug; a plain plug grounds the ring, and with it the tip.
    expect(rowsOf(stereo)).toEqual([
      'output.tip | pick up | p | 6000',
      'output.tip | pick middle | silent | 0',
      'output.tip | pick down | p | 6000',
      'output.ring | pick up | q | 7000',
      'output.ring | pick middle | parallel(p, q) | 3231',
      'output.ring | pick down | q | 7000',
    ]);
  });

  it('that switches a battery is none', () => {
    const circuit = soundCircuit(`
part p : single-coil 6k 2H
part buf : buffer
part cell : battery 9V from buf.plus to output.ring
part output : jack-stereo
wire p.hot to buf.in
wire buf.out to output.tip
wire p.ground to buf.minus to output.sleeve`);
    expect(outputsOf(circuit).map(({ tip }) => circuit.lugs[tip]!.label)).toEqual(['output.tip']);
    expect(positionTable(circuit).rows).toHaveLength(1);
  });

  it('is spoken of by expect and measured', () => {
    const circuit = soundCircuit(`${stereo}
expect at output.ring, pick up : sounds q, reads 7k within 5%
expect at output.ring pick middle : sounds parallel(p, q)
expect at output.ring, pick up : sounds p
expect pick up : sounds p
measured at output.ring, pick up : reads 7k`);
    const verdicts = [...circuit.expectations, ...circuit.measurements].map((line) =>
      evaluate(circuit, line).map(({ verdict }) => verdict),
    );
    expect(verdicts).toEqual([['held', 'held'], ['held'], ['failed'], ['held'], ['held']]);
  });
});

describe('two jacks', () => {
  const two = `instrument "Alder Lane no. 72"
part p : single-coil 6k 2H
part q : single-coil 7k 2H
part one, two : jack
wire p.hot to one.tip
wire q.hot to two.tip
wire p.ground to q.ground to one.sleeve to two.sleeve
`;

  it('have each its own rows, and nothing of it is a fault', () => {
    expect(rowsOf(two)).toEqual(['one.tip |  | p | 6000', 'two.tip |  | q | 7000']);
    expect(findings(circuitOf(`${two}expect : sounds p\nexpect at two.tip : sounds q\n`)).map(({ message }) => message)).toEqual(
      [],
    );
  });

  it('have each its own controls, judged where they are heard', () => {
    const volume = `${two}part v : pot 250k audio\nwire v.case to two.sleeve\n`.replace('wire q.hot to two.tip', '%');
    const right = volume.replace('%', 'wire q.hot to v.3\nwire v.2 to two.tip\nsolder v.1 to v.case');
    const turned = volume.replace('%', 'wire q.hot to v.1\nwire v.2 to two.tip\nsolder v.3 to v.case');
    expect(effectsAnywhere(soundCircuit(right)).map(({ says }) => says)).toEqual(['v is a volume: silent at 0 (at two.tip)']);
    expect(findings(circuitOf(right)).map(({ rule }) => rule)).not.toContain('backwards-control');
    expect(findings(circuitOf(turned)).map(({ rule }) => rule)).toContain('backwards-control');
  });

  it('have each its own expectations', () => {
    const circuit = soundCircuit(`${two}part mute : mini-dpdt
wire mute.A0 to one.tip
wire mute.B0 to two.tip
wire mute.A1 to mute.B1 to mute.frame to one.sleeve
expect mute 1 : silent
expect mute 2 : sounds p
expect at two.tip, mute 2 : sounds reversed q
`);
    const askedAt = (lug: string): string[] => {
      const { settings, intended } = factsOf(heardAt(circuit, lugOf(circuit, lug).id));
      return settings().map((setting) =>
        [intended.asksSilence(setting), intended.asksSound(setting), intended.asksReversed(setting)].map(Number).join(''),
      );
    };
    expect(askedAt('one.tip')).toEqual(['100', '010']);
    expect(askedAt('two.tip')).toEqual(['000', '011']);
  });

  it('the usual output is the same circuit', () => {
    const circuit = soundCircuit(two);
    expect(heardAt(circuit, lugOf(circuit, 'one.tip').id)).toBe(circuit);
    expect(heardAt(circuit, undefined)).toBe(circuit);
  });
});

it('lines of the current behaviour speak of each output, and hold', () => {
  for (const turns of [false, true]) {
    const lines = linesOfNow(soundCircuit(stereo), { turns });
    expect(lines.filter((line) => /^expect at output\.ring[ ,]/.test(line)).length, lines.join('\n')).toBeGreaterThan(0);
    const circuit = soundCircuit(`${stereo}${lines.join('\n')}\n`);
    expect(circuit.expectations.flatMap((line) => evaluate(circuit, line).map(({ verdict }) => verdict))).not.toContain('failed');
    expect(circuit.expectations).toHaveLength(lines.length);
  }
});

it('what is no output is refused with its place', () => {
  const messages = (line: string): string[] => circuitOf(`${stereo}${line}`).problems.map(({ message }) => message);
  expect(messages('expect at output.sleeve : silent')).toEqual([
    'an output is a contact of a jack that is not its sleeve, such as output.tip',
  ]);
  expect(messages('expect at pick.A : silent')).toHaveLength(1);
  expect(messages('expect at output.rng : silent')[0]).toContain('output has no lug rng');
});

it('a switch that is called at can be set', () => {
  const circuit = soundCircuit(
    stereo.replaceAll('pick', 'at').concat('expect at up : sounds p\nexpect at output.ring, at up : sounds q\n'),
  );
  expect(circuit.expectations.map((line) => evaluate(circuit, line).map(({ verdict }) => verdict))).toEqual([['held'], ['held']]);
});

describe('a wrong pin on the way to another output is found and repaired', () => {
  const ring = `instrument "Alder Lane no. 79"
part front : single-coil 6k 2H
part rear : single-coil 7k 2H
part front-volume : pot 250k audio
part rear-volume : pot 250k audio
part saddle : bridge-ground
part output : jack-stereo
wire front.hot to front-volume.3
wire rear.hot to rear-volume.3
wire front-volume.2 to output.tip white
wire rear-volume.2 to output.ring yellow
solder front-volume.1 to front-volume.case
solder rear-volume.1 to rear-volume.case
wire front.ground to front-volume.case
wire rear.ground to rear-volume.case
wire saddle to front-volume.case black
wire front-volume.case to rear-volume.case to output.sleeve black
expect : sounds front
expect front-volume 0 : silent
expect rear-volume 0 : sounds front
expect at output.ring : sounds rear
expect at output.ring, rear-volume 0 : silent
expect at output.ring, front-volume 0 : sounds rear
`;
  const jacks = ring
    .replace('output : jack-stereo', 'output, second : jack')
    .replace('to output.sleeve black', 'to output.sleeve to second.sleeve black')
    .replaceAll('output.ring', 'second.tip');
  const mistakes = [
    ['wire rear-volume.2 to output.ring', 'wire rear-volume.2 to output.tip'],
    ['wire rear-volume.2 to output.ring', 'wire rear-volume.2 to output.sleeve'],
    ['wire rear-volume.2 to output.ring', 'wire rear-volume.1 to output.ring'],
    ['wire rear.hot to rear-volume.3', 'wire rear.hot to front-volume.3'],
    ['wire rear.hot to rear-volume.3', 'wire rear.hot to rear-volume.case'],
    ['wire rear.ground to rear-volume.case', 'wire rear.ground to rear-volume.2'],
  ] as const;

  it.each([
    ['the ring', ring],
    ['a second jack', jacks],
  ])('%s', (_, text) => {
    expect(findings(circuitOf(text)).filter(({ severity }) => severity !== 'info')).toEqual([]);
    for (const [right, wrong] of mistakes) {
      const output = text === jacks ? (line: string) => line.replace('output.ring', 'second.tip') : (line: string) => line;
      const broken = text.replace(output(right), output(wrong));
      expect(broken).not.toBe(text);
      const [first] = repairs(circuitOf(broken));
      expect(first === undefined ? 'no repair' : withFix(broken, first), wrong).toBe(text);
    }
  });

  it('without expectations too, and nothing is moved to the first jack', () => {
    const unstated = jacks.replace(/^expect.*\n/gm, '');
    const broken = unstated.replace('rear-volume.2 to second.tip', 'rear-volume.2 to second.sleeve');
    const [first] = repairs(circuitOf(broken));
    expect(first === undefined ? 'no repair' : withFix(broken, first)).toBe(unstated);
  });
});

describe('a wire that missed the tip of the first jack of two', () => {
  const { text } = drawPractice(117);
  const right = 'wire circ.A0 to out.tip';

  it.each([
    ['nothing stated', text],
    ['everything stated', `${text}${linesOfNow(circuitOf(text)).join('\n')}\n`],
  ])('is moved back, although the second jack passes for the usual output without it: %s', (_, whole) => {
    const broken = whole.replace(right, 'wire circ.A0 to out.sleeve');
    expect(broken).not.toBe(whole);
    const tip = circuitOf(broken).output?.tip;
    expect(circuitOf(broken).lugs.find(({ id }) => id === tip)?.label).not.toBe('out.tip');
    const [first] = repairs(circuitOf(broken));
    expect(first === undefined ? 'no repair' : withFix(broken, first)).toBe(whole);
  });
});
