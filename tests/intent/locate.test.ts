/** Faults from readings that were worked by hand, values and joints that readings prove, and the readings that are asked for. */
import { describe, expect, it } from 'vitest';
import type { AnalysedCircuit } from '../../language/circuit/model.js';
import { meter, readAtJack } from '../../language/electrics/index.js';
import { locate, locatedJson, locatedText, type NextReading, type Suspect } from '../../language/intent/index.js';
import { casesIn, circuitOf, example } from './harness.js';

const said = ({ fault, explains, leaves }: Suspect): string =>
  `${explains.length}/${explains.length + leaves.length} ${fault.kind}: ${fault.where}`;

describe.each(casesIn('locate.txt'))('$title', ({ text, sections }) => {
  const circuit = circuitOf(text);
  const located = locate(circuit);
  const suspects = located.suspects.map(said);

  it('can be read', () => {
    expect(circuit.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  const [first] = sections.get('first') ?? [];
  if (first !== undefined) it('comes first', () => expect(suspects[0], suspects.join('\n')).toBe(first));

  if (sections.has('among'))
    it('is among those that explain most', () => expect(suspects).toEqual(expect.arrayContaining([...sections.get('among')!])));

  if (sections.has('whole'))
    it('needs no fault', () => {
      expect(suspects).toEqual([]);
      expect(located.asWritten.length).toBe(located.readings.length);
    });

  if (sections.has('next'))
    it('asks for a reading that parts the first suspects', () => {
      expect(located.next!.line).toMatch(/^measured .* : reads …$/);
      expect(located.next!.outcomes.length).toBeGreaterThan(1);
      const again = circuitOf(`${text}\n${located.next!.line.replace('…', 'open')}\n`);
      expect(again.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    });
});

describe('an instrument that is being traced', () => {
  it('gives the value of a winding from what is read beside a known track', () => {
    // 1/(1/6.48 − 1/250) = 6.652k and 1/(1/3.03 − 1/5.7 − 1/250) = 6.641k: 6.65k.
    const { estimates } = locate(circuitOf(example('old-instrument-traced')));
    const bridge = estimates.find(({ part }) => part === 'bridge')!;
    expect(bridge.ohm / 6646).toBeCloseTo(1, 2);
    expect(bridge.text).toBe('6.65k');
    expect(bridge.from).toHaveLength(2);
  });

  const harness = `part neck : single-coil 6.2k 2.4H 110pF
part selector : lever-3
part volume : pot 250k audio
part output : jack
wire volume.2 to output.tip
wire volume.1 to output.sleeve
`;

  it('follows a lead from probe to probe until its wire is proved', () => {
    const own = harness.replace('wire volume.2 to output.tip\n', '');
    const asked = (lines: readonly string[]): string => locate(circuitOf(`${own}${lines.join('\n')}\n`)).probes[0]!;
    // The leads of the instrument on the bench: neck.hot on throw B3, everything else on ground or nowhere.
    const says = (line: string): string => {
      const isShort = line.includes('neck.hot and selector.B3') || line.includes('neck.ground and output.sleeve');
      return line.replace('…', isShort ? 'short' : 'open');
    };
    const lines = ['measured between neck.ground and output.sleeve : reads short'];
    for (let step = 0; step < 20 && !lines.some((line) => line.includes('B3')); step++) lines.push(says(asked(lines)));
    expect(lines.at(-1)).toBe('measured between neck.hot and selector.B3 : reads short');
    expect(locate(circuitOf(`${own}${lines.join('\n')}\n`)).proofs.map(({ line }) => line)).toEqual([
      'wire neck.ground to output.sleeve',
      'wire neck.hot to selector.B3',
    ]);
  });

  it('writes the wires that short readings prove, each once', () => {
    const text = `${harness}measured between neck.hot and selector.A1 : reads short
measured between selector.A0 and volume.3 : reads short
measured between neck.ground and output.sleeve : reads short
measured between neck.ground and volume.1 : reads short
measured between volume.2 and output.tip : reads short
`;
    expect(locate(circuitOf(text)).proofs.map(({ line }) => line)).toEqual([
      'wire neck.hot to selector.A1',
      'wire selector.A0 to volume.3',
      'wire neck.ground to output.sleeve',
    ]);
  });

  it('takes a closed contact, or a wiper at its end, for no wire', () => {
    const text = `${harness}wire neck.hot to selector.A1
measured between neck.hot and selector.A0 selector 1 : reads short
measured between volume.2 and volume.3 volume 10 : reads short
`;
    expect(locate(circuitOf(text)).proofs).toEqual([]);
  });

  it('asks for what is not known yet', () => {
    const { probes } = locate(circuitOf(`${harness.replace('6.2k', '{ resistance ? }').replace('} 2.4H 110pF', '}')}`));
    expect(probes[0]).toBe('measured between neck.ground and neck.hot : reads …');
    expect(probes).toContain('measured between neck.hot and output.sleeve : reads …');
  });
});

describe('step by step', () => {
  /** The readings that are asked for, taken from an instrument with the fault in it, until nothing more is asked. */
  function followed(right: string, faulty: string, first: readonly string[]): readonly (readonly string[])[] {
    const onBench = circuitOf(faulty);
    const lines = [...first];
    const lists: (readonly string[])[] = [];
    for (let step = 0; step < 8; step++) {
      const { suspects, next } = locate(circuitOf(`${right}\n${lines.join('\n')}\n`));
      const most = suspects[0]?.explains.length;
      lists.push(suspects.filter(({ explains }) => explains.length === most).map(said));
      if (next === undefined) break;
      lines.push(next.line.replace('…', meterSays(onBench, next)));
    }
    return lists;
  }

  function meterSays(circuit: AnalysedCircuit, { setting, between }: NextReading): string {
    const { ohm } = between === undefined ? readAtJack(circuit, setting) : meter(circuit, setting, ...between);
    return ohm === null ? 'open' : ohm < 2 ? 'short' : `${Number(ohm.toPrecision(3))}R`;
  }

  it.each([
    ['a loose ground lead', 'wire neck.ground    to volume.case\n', '', 'cold joint: neck.ground to volume.case'],
    [
      'a lead on the wrong throw',
      'wire bridge.hot  to selector.A1',
      'wire bridge.hot to selector.A3',
      'wrong lug: selector.A1 and selector.A3',
    ],
  ])('%s: with each reading the list shrinks, to the fault', (_, line, instead, fault) => {
    const right = example('two-single-coils-lever-3');
    const faulty = right.replace(line, instead);
    expect(faulty).not.toBe(right);
    const first = ['bridge', 'neck'].map((name, at) => {
      const { ohm } = readAtJack(circuitOf(faulty), { positions: [2 * at], rotations: [10, 10] });
      return `measured selector "${name}" : reads ${ohm === null ? 'open' : `${Number(ohm.toPrecision(3))}R`}`;
    });
    const lists = followed(right, faulty, first);
    lists.slice(1).forEach((list, at) => expect(list.length).toBeLessThanOrEqual(lists[at]!.length));
    expect(lists.at(-1)!.length).toBeLessThan(lists[0]!.length);
    expect(
      lists.at(-1)!.some((one) => one.endsWith(fault)),
      lists.at(-1)!.join('\n'),
    ).toBe(true);
    expect(lists.at(-1)!.length).toBeLessThanOrEqual(3);
  });

  it('says where the probes go, in words', () => {
    const { next } = locate(circuitOf(`${example('two-single-coils-lever-3')}measured selector "neck" : reads 249k\n`));
    expect(next!.where).toMatch(/probe/);
  });

  it('a reading that is still to be taken says nothing yet, and is no fault of the text', () => {
    const circuit = circuitOf(`${example('two-single-coils-lever-3')}measured selector "neck" : reads ?\n`);
    expect(circuit.problems).toEqual([]);
    expect(locate(circuit).readings).toEqual([]);
  });
});

describe('what is written', () => {
  const located = locate(
    circuitOf(
      `${example('two-single-coils-lever-3')}measured selector "neck" : reads 249k\nmeasured selector "both" : reads 3.22k\n`,
    ),
  );

  it('as JSON has the fields that were promised', () => {
    const { suspects } = JSON.parse(locatedJson(located)) as { suspects: Record<string, unknown>[] };
    for (const suspect of suspects)
      expect(suspect).toMatchObject({
        fault: expect.any(String),
        where: expect.any(String),
        explains: expect.any(Number),
        of: 2,
      });
    expect(suspects[0]!['explains']).toBe(2);
  });

  it('as text says what is explained and what is not, and what to mind', () => {
    const text = locatedText(located);
    expect(text).toMatch(/explains 2 of 2/);
    expect(text).toMatch(/explains 1 of 2, not selector "both": 3\.22k/);
    expect(text).toMatch(/unplug from the amplifier and take the batteries out/);
  });

  it('without readings says how to begin', () => {
    expect(locatedText(locate(circuitOf(example('one-pickup-volume-tone'))))).toMatch(/There are no readings yet/);
  });
});
