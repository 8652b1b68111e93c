/** Words as people write them: tapers and dielectrics by their usual names, a wire's section in place of its gauge, what a wire is made of. */
import { describe, expect, test } from 'vitest';
import { amount, gaugeText, lower, wireDiameter } from '../../language/circuit/index.js';
import { wireResistance } from '../../language/electrics/index.js';
import { findings } from '../../language/findings.js';
import { parseText, parseValue } from '../../language/grammar/index.js';
import { circuitOf, partOf, soundCircuit } from './harness.js';

describe('tapers', () => {
  // The contract's table: `log` is `audio`, `lin` is `linear`, `anti-log` is `reverse-audio`.
  const pairs = [
    ['log', 'audio'],
    ['lin', 'linear'],
    ['anti-log', 'reverse-audio'],
  ] as const;
  const tapersOf = (text: string) => soundCircuit(text).elements.map((element) => element.kind === 'track' && element.taper);

  test.each(pairs)('%s is %s', (written, meant) => {
    expect(tapersOf(`part a : pot 250k ${written}`)).toEqual([meant]);
    expect(tapersOf(`part a : pot 250k { taper ${written} }`)).toEqual([meant]);
    expect(partOf(soundCircuit(`part a : pot 250k ${written}`), 'a').properties['taper']).toMatchObject({ words: [meant] });
    const own = `type slider : control {\n  lugs 1 2 3\n  track from 1 to 3 wiper 2 { resistance 100k, taper ${written} }\n}\n`;
    expect(tapersOf(`${own}part a : slider`)).toEqual([meant]);
  });

  test('where a type has a choice of that name, it is meant', () => {
    const circuit = soundCircuit(
      'type scale : passive {\n  lugs a b\n  takes marking flat|log, taper audio|linear\n}\npart a : scale log',
    );
    expect(partOf(circuit, 'a').properties['marking']).toMatchObject({ words: ['log'] });
    expect(partOf(circuit, 'a').properties['taper']).toMatchObject({ words: ['audio'] });
  });

  test('a misspelt one is no taper', () => {
    const [problem] = circuitOf('part a : pot 250k lgo').problems;
    expect(problem!.message).toContain('pot does not take the word `lgo`');
  });
});

test.each(['polyester', 'polypropylene', 'paper', 'mica', 'film', 'ceramic'])('a capacitor of %s', (kind) => {
  const circuit = soundCircuit(`part c : capacitor 22nF ${kind}`);
  expect(partOf(circuit, 'c').properties['kind']).toMatchObject({ words: [kind] });
});

describe('a section in place of a gauge', () => {
  test.each(['0.25mm2', '0.25mm²', '.25mm2'])('%s', (written) => {
    const { joints } = soundCircuit(`part a, b : star\nwire a to b ${written}`);
    const { gauge } = joints[0]!;
    // A round conductor: A = π/4 · d².
    expect((Math.PI / 4) * (wireDiameter(gauge!) * 1e3) ** 2).toBeCloseTo(0.25, 9);
    expect(amount(gauge!, 'awg')).toBe('0.25 mm²');
    expect(gaugeText(gauge!)).toBe('0.25mm2');
  });

  // R = ρ · l / A with ρ = 1.7241e-8 Ω·m at 20 °C (IEC 60028); IEC 60228 allows 36.0, 24.5 and 18.1 Ω/km at most (from memory).
  test.each([
    [0.5, 34.482, 36.0],
    [0.75, 22.988, 24.5],
    [1, 17.241, 18.1],
  ])('%f mm² has the resistance of its section', (area, ohm, most) => {
    const gauge = parseValue(`${area}mm2`)!.value;
    expect(wireResistance(gauge, 1000)).toBeCloseTo(ohm, 6);
    expect(wireResistance(gauge, 1000)).toBeLessThan(most);
    expect(gaugeText(gauge)).toBe(`${area}mm2`);
  });

  test('a gauge stays a gauge, and the two are one thing said twice', () => {
    expect([amount(22, 'awg'), gaugeText(22)]).toEqual(['22 AWG', '22awg']);
    const [problem] = circuitOf('part a, b : star\nwire a to b 22awg 0.25mm2').problems;
    expect(problem!.message).toBe('this wire already has a gauge; 0.25mm2 is a second one');
  });

  test.each(['0mm2', '0.25mm3', '-0.25mm2'])('%s is none', (written) => {
    expect(parseValue(written)?.unit).not.toBe('awg');
  });
});

describe('what a wire is made of', () => {
  test('in any order and beside everything else', () => {
    const { joints } = soundCircuit('part a, b : star\nwire a to b cloth black stranded 22awg 85mm');
    expect(joints[0]).toMatchObject({ make: ['stranded', 'cloth'], colour: 'black', gauge: 22, shielded: false });
    expect(soundCircuit('part a, b : star\nwire a to b black').joints[0]!.make).toBeUndefined();
  });

  test('a lead that comes with a part keeps it, and so does the wire that is this lead', () => {
    const circuit = soundCircuit(
      'part p : single-coil { lead hot white braided stranded 300mm }\npart v : pot\nwire p.hot to v.3',
    );
    const made = { make: ['stranded', 'braided'], colour: 'white' };
    expect(partOf(circuit, 'p').leads).toMatchObject([{ ...made, shielded: true }]);
    expect(circuit.joints[0]).toMatchObject({ ...made, ownLead: true });
  });

  // Common practice, no source: a pickup comes with a braided lead, a wire that is described otherwise is cut off a reel.
  test.each([
    ['', true],
    ['braided', true],
    ['cloth stranded', false],
  ])('a wire from a pickup without leads, “%s”, is its own: %s', (words, isOwn) => {
    const { joints } = soundCircuit(`part p : single-coil\npart v : pot\nwire p.hot to v.3 ${words}`);
    expect(joints[0]!.mark?.startsWith('L')).toBe(isOwn);
  });

  test('a conductor is solid or stranded', () => {
    const [problem] = circuitOf('part a, b : star\nwire a to b solid stranded').problems;
    expect(problem!.message).toBe('this wire is already solid; a conductor is solid or stranded');
  });
});

describe('a braid', () => {
  const rules = (text: string) =>
    findings(lower(parseText('test:/braid.lug', text), { tree: () => undefined })).map(({ rule }) => rule);
  const guitar = (lead: string) => `
part bridge : humbucker 8k 4.2H 120pF
part volume : pot 500k log
part saddle : bridge-ground
part output : jack
${lead}
wire volume.2 to output.tip
solder volume.1 to volume.case
wire saddle to volume.case
wire volume.case to output.sleeve
`;

  test.each([
    ['written as two ends of the lead', 'wire bridge.hot to volume.3 braided\nwire bridge.ground to volume.case braided'],
    ['written as a core and its screen', 'wire bridge.hot to volume.3 braided screen to bridge.ground and volume.case'],
  ])('that is a pickup’s return is right: %s', (_, lead) => expect(rules(guitar(lead))).toEqual([]));

  test('of a wire between two other parts has to be connected', () => {
    const base = guitar('wire bridge.hot to volume.3\nwire bridge.ground to volume.case');
    expect(rules(base)).toEqual([]);
    expect(rules(base.replace('to output.tip', 'to output.tip braided'))).toContain('floating-screen');
    expect(rules(base.replace('to output.tip', 'to output.tip braided screen to volume.case'))).toEqual([]);
  });
});
