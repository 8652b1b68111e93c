/** The diagram: what is drawn of a circuit, under which names, before anything has a place. */
import { describe, expect, test } from 'vitest';
import { createDiagram, placeNames } from '../../language/drawing/index.js';
import type { DiagramPart, DiagramRun } from '../../language/drawing/diagram/diagram.js';
import { quantityText } from '../../language/drawing/diagram/value-text.js';
import { fitText, textWidth } from '../../language/drawing/text-measure.js';
import { lettersOf } from '../../language/drawing/palette.js';
import { compareText } from '../../language/drawing/diagram/order.js';
import type { Quantity, Unit } from '../../language/circuit/model.js';
import { circuitOf, circuitOfText } from './support.js';

const runs = (text: string): readonly DiagramRun[] => createDiagram(circuitOfText(text)).runs;
const parts = (text: string): readonly DiagramPart[] => createDiagram(circuitOfText(text)).parts;

describe('runs', () => {
  test('each `to` is one run, named by its ends in order', () => {
    expect(runs('part v : pot 250k\npart w : pot 250k\nwire w.3 to v.2 to v.1 yellow').map(({ id }) => id)).toEqual([
      'wire:v.1~v.2',
      'wire:v.2~w.3',
    ]);
  });

  test('a wire laid twice is two runs', () => {
    const ids = runs('part v : pot 250k\npart w : pot 250k\nwire w.3 to v.2\nwire v.2 to w.3').map(({ id }) => id);
    expect(ids).toEqual(['wire:v.2~w.3', 'wire:v.2~w.3#2']);
  });

  test('a pickup’s lead has the lead’s colour', () => {
    const [run] = runs('part p : single-coil { lead hot white-red 300mm }\npart v : pot 250k\nwire p.hot to v.3');
    expect(run).toMatchObject({ colours: ['white', 'red'], letters: 'WHRD', ownLead: true });
  });

  test('leads of parts, direct joints and screens are told apart', () => {
    const text =
      'part v : pot 250k\npart j : jack\npart c : capacitor 22nF from v.1 to v.case\nsolder v.1 to j.sleeve\nwire v.2 to j.tip shielded screen to j.sleeve\nwire v.case to j.sleeve';
    expect(runs(text).map(({ id, kind, ground }) => [id, kind, ground])).toEqual([
      ['lead:c.a~v.1', 'lead', true],
      ['lead:c.b~v.case', 'lead', true],
      ['screen:j.tip~v.2~j.sleeve', 'screen', true],
      ['solder:j.sleeve~v.1', 'solder', true],
      ['wire:j.sleeve~v.case', 'wire', true],
      ['wire:j.tip~v.2', 'wire', false],
    ]);
  });

  test('a lug bent onto its own case is no line: the part is drawn so', () => {
    const { runs: drawn, parts } = createDiagram(circuitOfText('part v : pot 250k\npart w : pot 250k\nsolder v.1 to v.case'));
    expect(drawn).toEqual([]);
    expect(parts.map(({ name, bent }) => [name, bent])).toEqual([
      ['v', ['lug:v.1']],
      ['w', []],
    ]);
  });

  test('a wire has its number in the cut list', () => {
    const text = 'part v : pot 250k\npart j : jack\nwire v.case to j.sleeve no 7\nwire v.2 to j.tip';
    expect(runs(text).map(({ id, number }) => [id, number])).toEqual([
      ['wire:j.sleeve~v.case', 'W7'],
      ['wire:j.tip~v.2', 'W1'],
    ]);
  });

  test('metal that touches is told by the plate that carries it, not by a line', () => {
    const { runs: drawn, groups } = createDiagram(
      circuitOfText('cavity rout\npart v : pot 250k\npart w : pot 250k\nplate p in rout metal { v at 10 10, w at 40 10 }'),
    );
    expect(drawn).toEqual([]);
    expect(groups.map(({ id, notes, parent }) => [id, notes, parent])).toEqual([
      ['cavity:rout', [], undefined],
      ['plate:p', ['metal'], 'cavity:rout'],
    ]);
  });
});

describe('parts', () => {
  test('are drawn by what they are made of, a user’s own type like the standard one', () => {
    const kinds = parts(
      'type dark : pickup {\n  lugs hot ground\n  coil main from ground to hot { resistance 8k, inductance 4H, capacitance 90pF }\n}\npart a : dark\npart b : humbucker\npart c : pot 250k\npart d : pot-push-pull 500k\npart e : pot-dual 250k\npart f : lever-5\npart g : rotary-2x6\npart h : jack-stereo\npart i : electrolytic 10uF\npart j : star\npart k : buffer\npart l : bridge-ground',
    ).map(({ name, kind }) => [name, kind]);
    expect(kinds).toEqual([
      ['a', 'pickup'],
      ['b', 'humbucker'],
      ['c', 'pot'],
      ['d', 'pot-switch'],
      ['e', 'pot-dual'],
      ['f', 'switch'],
      ['g', 'rotary'],
      ['h', 'jack'],
      ['i', 'electrolytic'],
      ['j', 'star'],
      ['k', 'amplifier'],
      ['l', 'bridge'],
    ]);
  });

  test('bear their values, a question mark where they are not known', () => {
    const values = parts(
      'part a : single-coil 6.9k 2.9H\npart b : pot ? audio\npart c : capacitor 22nF\npart d : pot-dual 500k linear\npart e : battery',
    ).map((part) => part.values);
    expect(values).toEqual([['6.9 kΩ  2.9 H'], ['?', 'audio'], ['22 nF'], ['2 × 500 kΩ', 'linear'], ['9 V']]);
  });

  test('between two lugs of one plate lie on that plate', () => {
    const { parts: drawn } = createDiagram(circuitOf('bass-two-circuits-four-cavities'));
    const group = (name: string): string | undefined => drawn.find((part) => part.id === `part:${name}`)!.group;
    expect(group('cut-cap')).toBe('plate:controls');
    expect(group('deep-cap')).toBe('plate:switches');
    // Its other lead goes to the buffer, which lies in the cavity and not on the plate.
    expect(group('out-cap')).toBe('cavity:control-cavity');
  });

  test('side by side between the two lugs of an assembly are one thing; any other assembly is an outline', () => {
    const bleed =
      'type bleed : assembly {\n  lugs top bottom\n  part c : capacitor 680pF from top to bottom\n  part r : resistor 150k from bottom to top\n}\npart b : bleed';
    const [network] = parts(bleed);
    expect(network).toMatchObject({ id: 'part:b', kind: 'network' });
    // Left is the assembly's first lug whichever way round the part was written.
    expect(network!.inner!.map((inner) => inner.lugs.map((lug) => lug.label))).toEqual([
      ['b.c.a', 'b.c.b'],
      ['b.r.b', 'b.r.a'],
    ]);
    const chain =
      'type chain : assembly {\n  lugs x y\n  part c : capacitor 1nF\n  part r : resistor 1k\n  wire x to c.a\n  wire c.b to r.a\n  wire r.b to y\n}\npart k : chain';
    expect(parts(chain).map(({ id, kind, group }) => [id, kind, group])).toEqual([
      ['part:k.c', 'capacitor', 'assembly:k'],
      ['part:k.r', 'resistor', 'assembly:k'],
      ['part:k.x', 'terminal', 'assembly:k'],
      ['part:k.y', 'terminal', 'assembly:k'],
    ]);
  });
});

describe('ground marks', () => {
  const { runs: drawn, parts: all } = createDiagram(circuitOf('two-single-coils-lever-3'), { grounds: 'marks' });
  const mark = (lug: string): readonly string[] => all.find((part) => part.id === `mark:${lug}`)!.values;

  test('say the number of the wire and where it goes, and where many meet their numbers', () => {
    // Numbers by hand, in the order of the text: leads of bridge and neck, then what comes off the reel.
    const numberOf = (id: string): string =>
      createDiagram(circuitOf('two-single-coils-lever-3')).runs.find((run) => run.id === id)!.number!;
    const between = (lug: string): string => numberOf(`wire:${lug}`);
    expect(mark('bridge.ground')).toEqual([`${between('bridge.ground~volume.case')} → volume.case`]);
    expect(mark('output.sleeve')).toEqual([`${between('output.sleeve~tone.case')} → tone.case`]);
    // Both pickups, frame, saddle, tone case.
    expect(mark('volume.case').join(' ').split(' ')).toHaveLength(5);
    expect([...mark('tone.case')].sort()).toEqual(
      [`${between('output.sleeve~tone.case')} → output.sleeve`, `${between('tone.case~volume.case')} → volume.case`].sort(),
    );
  });

  test('leave direct joints, leads and the signal drawn', () => {
    expect(drawn.filter((run) => run.kind === 'lead').length).toBe(2);
    expect(drawn.some((run) => run.kind === 'wire' && run.ground)).toBe(false);
    expect(drawn.find((run) => run.id === 'ground:saddle')).toMatchObject({
      from: 'lug:saddle',
      to: 'end:saddle',
      letters: 'BK',
    });
  });
});

describe('one plate or cavity', () => {
  const circuit = circuitOf('bass-two-circuits-four-cavities');
  const whole = createDiagram(circuit, { grounds: 'wires' });

  test.each(placeNames(circuit))('%s has its parts, its wires, and a mark for each wire that leaves', (plate) => {
    const { parts, runs: drawn, groups } = createDiagram(circuit, { grounds: 'wires', plate });
    const own = parts.filter(({ kind }) => kind !== 'mark');
    expect(own.length).toBeGreaterThan(0);
    const lugs = new Set(own.flatMap((part) => part.lugs.map(({ id }) => id)));
    const isOne = (run: { readonly from: string; readonly to: string }): boolean => lugs.has(run.from) !== lugs.has(run.to);
    const leaving = whole.runs.filter((run) => run.kind !== 'screen' && isOne(run));
    const marks = parts.filter(({ kind }) => kind === 'mark');
    expect(
      marks
        .filter(({ values }) => !values[0]!.startsWith('screen'))
        .map(({ id }) => id)
        .sort(),
    ).toEqual(leaving.map(({ id }) => `leaves:${id}`).sort());
    const ends = new Set([...lugs, ...marks.flatMap((mark) => mark.lugs.map(({ id }) => id))]);
    for (const run of drawn) expect(ends.has(run.to) && (run.kind === 'screen' || ends.has(run.from)), run.id).toBe(true);
    const known = new Set(groups.map(({ id }) => id));
    for (const group of groups) expect(group.parent === undefined || known.has(group.parent)).toBe(true);
    for (const part of parts) expect(known.has(part.group!)).toBe(true);
  });

  test('the mark says the number and the far end', () => {
    const { parts } = createDiagram(circuit, { grounds: 'wires', plate: 'controls' });
    const wire = whole.runs.find((run) => run.to === 'lug:output.tip' || run.from === 'lug:output.tip')!;
    const far = (wire.from === 'lug:output.tip' ? wire.to : wire.from).slice(4);
    expect(parts.find(({ id }) => id === `leaves:${wire.id}`)!.values).toEqual([`${wire.number!} → ${far}`]);
  });
});

describe('texts', () => {
  const quantity = (value: number, unit: Unit, known = true): Quantity => ({ value, unit, tolerance: 0, known });

  test.each([
    [250e3, 'ohm', '250 kΩ'],
    [1e6, 'ohm', '1 MΩ'],
    [470, 'ohm', '470 Ω'],
    [0, 'ohm', '0 Ω'],
    [22e-9, 'farad', '22 nF'],
    [680e-12, 'farad', '680 pF'],
    [1e-7, 'farad', '100 nF'],
    [4.7e-6, 'farad', '4.7 µF'],
    [2.4, 'henry', '2.4 H'],
    [0.9, 'henry', '900 mH'],
    [9, 'volt', '9 V'],
  ] as const)('%d %s is %s', (value, unit, text) => {
    expect(quantityText(quantity(value, unit))).toBe(text);
  });

  test('a value not known is a question mark', () => {
    expect(quantityText(quantity(250e3, 'ohm', false))).toBe('?');
  });

  // IEC 60757 (published): two colours on one wire are written together.
  test.each([
    ['black', 'BK'],
    ['red-blue', 'RDBU'],
    ['turquoise', 'TQ'],
  ])('%s is %s', (colour, letters) => {
    expect(lettersOf(colour)).toBe(letters);
  });

  test('wider texts are wider, and what is cut fits', () => {
    const style = { size: 10 };
    expect(textWidth('WW', style)).toBeGreaterThan(textWidth('ii', style));
    expect(textWidth('a\u0301', style)).toBe(textWidth('a', style));
    expect(fitText('short', style, 100)).toBe('short');
    const cut = fitText('a rather long name of a part', style, 60);
    expect(cut).toMatch(/…$/);
    expect(textWidth(cut, style)).toBeLessThanOrEqual(60);
    const whole = 'a ràther löng nàme — of à part';
    const prefixes = [...whole].map((_, index, all) => `${all.slice(0, index + 1).join('')}…`);
    for (let width = 1; width < textWidth(whole, style); width += 3)
      expect(fitText(whole, style, width)).toBe(prefixes.filter((one) => textWidth(one, style) <= width).at(-1) ?? prefixes[0]);
    // Cut from the right one sign at a time, this would take hours.
    expect(fitText('long-'.repeat(100_000), style, 60)).toMatch(/^(long-)+.*…$/);
  });

  test('numbers in names stand in their order', () => {
    expect(['A10', 'A2', 'B1', 'A1'].sort(compareText)).toEqual(['A1', 'A2', 'A10', 'B1']);
  });
});
