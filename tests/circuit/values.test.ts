/** Bare values, words and braces of a part: which parameter each goes to. */
import { describe, expect, test } from 'vitest';
import type { Property } from '../../language/circuit/index.js';
import { coilOf, elementsOf, partOf, soundCircuit, trackOf } from './harness.js';

function show(property: Property | undefined): string {
  if (property === undefined) return 'none';
  if ('words' in property) return property.words.join(' ');
  const tolerance =
    property.tolerance === 0 || (property.assumed === true && property.tolerance < 0.2) ? '' : ` ±${property.tolerance * 100}%`;
  return `${property.known ? '' : '?'}${property.value} ${property.unit}${tolerance}`;
}

/** Property of the part `x : …` under that name. */
function given(type: string, property: string): string {
  return show(partOf(soundCircuit(`part x : ${type}`), 'x').properties[property]);
}

describe('a bare value goes to the parameter of its unit, a bare word to the one that lists it', () => {
  test.each([
    ['single-coil 6.9k 2.9H 120pF', 'resistance', '6900 ohm'],
    ['single-coil 6.9k 2.9H 120pF', 'inductance', '2.9 henry'],
    ['single-coil 120pF 2.9H 6.9k', 'capacitance', '1.2e-10 farad'],
    ['single-coil 6.9k reverse south', 'wound', 'reverse'],
    ['single-coil 6.9k reverse south', 'magnet', 'south'],
    ['pot 500k audio', 'resistance', '500000 ohm ±20%'],
    ['pot 500k audio', 'taper', 'audio'],
    ['pot reverse-audio 1M left', 'turn', 'left'],
    ['capacitor 0.047uF ceramic', 'kind', 'ceramic'],
    ['inductor 1.5H 180R', 'resistance', '180 ohm'],
    ['battery 18V', 'voltage', '18 volt'],
    ['resistor 1M5 5%', 'tolerance', '5 percent'],
    ['resistor 1M5 5%', 'resistance', '1500000 ohm ±5%'],
    ['buffer 2M', 'input', '2000000 ohm'],
  ])('%s: %s is %s', (type, property, value) => expect(given(type, property)).toBe(value));
});

describe('codes as they are printed on parts', () => {
  test.each([
    ['pot A250K', 'resistance', '250000 ohm ±20%'],
    ['pot A250K', 'taper', 'audio'],
    ['pot B500K', 'taper', 'linear'],
    ['capacitor 223J', 'capacitance', '2.2e-8 farad ±5%'],
    ['capacitor 0.022/100V', 'capacitance', '2.2e-8 farad'],
    ['capacitor 0.022/100V', 'voltage', '100 volt'],
    ['resistor R47', 'resistance', '0.47 ohm'],
    ['resistor { resistance R47 }', 'resistance', '0.47 ohm'],
    ['capacitor { capacitance 473, tolerance 10% }', 'capacitance', '4.7e-8 farad ±10%'],
    ['capacitor 223J { tolerance 2% }', 'capacitance', '2.2e-8 farad ±2%'],
  ])('%s: %s is %s', (type, property, value) => expect(given(type, property)).toBe(value));
});

describe('a second value of the same unit goes to the parameter that follows the first', () => {
  test.each([
    ['pot-dual 500k audio', 'resistance-b', '500000 ohm ±20%'],
    ['pot-dual 500k audio', 'taper-b', 'audio'],
    ['pot-concentric 250k 500k', 'resistance', '250000 ohm ±20%'],
    ['pot-concentric 250k 500k', 'resistance-b', '500000 ohm ±20%'],
    ['pot-concentric A250K B500K', 'taper', 'audio'],
    ['pot-concentric A250K B500K', 'taper-b', 'linear'],
  ])('%s: %s is %s', (type, property, value) => expect(given(type, property)).toBe(value));
});

describe('tolerance', () => {
  // The usual ones, which the language's contract fixes: pickups 5, 10 and 20 %, pots 20 %, resistors 5 %, capacitors and inductors 10 %.
  test('is the usual one of its kind, and marked as assumed, unless it is given', () => {
    const tolerances = (text: string): unknown[] =>
      Object.values(elementsOf(soundCircuit(text), 'p')[0]!).flatMap((value: unknown) =>
        typeof value === 'object' && value !== null && 'tolerance' in value && 'assumed' in value
          ? [value.tolerance, value.assumed]
          : [],
      );
    expect(tolerances('part p : single-coil 6k 2H 100pF')).toEqual([0.05, true, 0.1, true, 0.2, true]);
    expect(tolerances('part p : pot 250k')).toEqual([0.2, true]);
    expect(tolerances('part p : resistor 100k')).toEqual([0.05, true]);
    expect(tolerances('part p : capacitor 22nF')).toEqual([0.1, true]);
    expect(tolerances('part p : inductor 1H 100R')).toEqual([0.1, true, 0.1, true]);
    expect(tolerances('part p : single-coil 6k { tolerance 0% }')).toEqual([]);
    expect(tolerances('build { pickup-tolerance 3% }\npart p : single-coil 6k 2H 100pF')).toEqual([
      0.03,
      true,
      0.1,
      true,
      0.2,
      true,
    ]);
    expect(
      tolerances(
        'type mine : pickup {\n  lugs hot ground\n  takes tolerance 2%\n  coil main from ground to hot { resistance 6k, inductance 2H }\n}\npart p : mine',
      ),
    ).toEqual([]);
  });

  test('given, it is that of the text', () => {
    expect(trackOf(soundCircuit('part p : pot 250k'), 'p').resistance.tolerance).toBe(0.2);
    expect(trackOf(soundCircuit('part p : pot 250k { tolerance 10% }'), 'p').resistance.tolerance).toBe(0.1);
    expect(coilOf(soundCircuit('part p : single-coil { tolerance 0% }'), 'p').resistance.tolerance).toBe(0);
    expect(coilOf(soundCircuit('part p : humbucker { tolerance 6% }'), 'p', 'north').resistance.tolerance).toBe(0.06);
  });

  test('reaches a part inside only where that part has its parameter’s value', () => {
    const circuit = soundCircuit(`
type net : assembly {
  lugs in out
  takes size 10k
  part r : resistor size from in to out
  part q : resistor 22k from in to out
}
part x : net 12k { tolerance 5% }
`);
    const [r] = elementsOf(circuit, 'x.r');
    const [q] = elementsOf(circuit, 'x.q');
    expect(r).toMatchObject({ resistance: { value: 12000, tolerance: 0.05 } });
    expect(q).toMatchObject({ resistance: { value: 22000, tolerance: 0.05, assumed: true } });
  });
});

describe('a value not known yet', () => {
  test.each([
    ['single-coil ?', 'resistance', '?6500 ohm'],
    ['single-coil ? 3H', 'inductance', '3 henry'],
    ['single-coil 3H ?', 'resistance', '?6500 ohm'],
    ['single-coil 6k ?', 'inductance', '?2.6 henry'],
    ['pot ? audio', 'resistance', '?250000 ohm ±20%'],
    ['capacitor { capacitance ? }', 'capacitance', '?2.2e-8 farad'],
  ])('%s: %s is %s', (type, property, value) => expect(given(type, property)).toBe(value));

  test('is carried into the element', () => {
    expect(elementsOf(soundCircuit('part c : capacitor ?'), 'c')[0]).toMatchObject({ capacitance: { known: false } });
    expect(coilOf(soundCircuit('part h : humbucker ? 4H'), 'h', 'south').resistance).toMatchObject({ known: false, value: 4000 });
  });
});

test('what is left out has the type’s default, and no place in the text', () => {
  const { properties } = partOf(soundCircuit('part p : pot audio'), 'p');
  expect(properties.resistance).toEqual({ value: 250e3, unit: 'ohm', tolerance: 0.2, assumed: true, known: true });
  expect(properties.insulated).toBeUndefined();
});

test('flags, body and lead spacing are kept for the drawing', () => {
  const { properties } = partOf(soundCircuit('part c : capacitor 22nF { insulated, body 14mm, lead spacing 7.5mm }'), 'c');
  expect(show(properties.insulated)).toBe('');
  expect(show(properties.body)).toBe('0.014 metre');
  expect(show(properties.spacing)).toBe('0.0075 metre');
});

test('one statement may declare several parts alike', () => {
  const circuit = soundCircuit('part a, b : pot 500k');
  expect(circuit.parts.map((part) => part.name)).toEqual(['a', 'b']);
  expect(trackOf(circuit, 'b').resistance.value).toBe(500e3);
});
