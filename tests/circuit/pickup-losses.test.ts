/** What a text says of a pickup's losses and of its resonance: shared between coils, found, and refused where it can't be. */
import { describe, expect, it, test } from 'vitest';
import { circuitFromJson, circuitToJson, valuesSignature } from '../../language/circuit/index.js';
import { response, restingSetting } from '../../language/electrics/index.js';
import { circuitOf, coilOf, partOf, soundCircuit } from './harness.js';

const messages = (text: string): string[] => circuitOf(text).problems.map(({ message }) => message);

describe('losses of a pickup', () => {
  it('belong to the whole, and are shared between its coils', () => {
    const losses = 'eddy-inductance 30%, eddy-resistance 20k, loss-exponent 0.94, cover-shading 40%';
    const single = coilOf(soundCircuit(`part p : single-coil { ${losses} }`), 'p');
    expect(single).toMatchObject({ eddyInductance: 0.3, lossExponent: 0.94, coverShading: 0.4 });
    expect(single.eddyResistance!.value).toBe(20e3);
    for (const type of ['humbucker', 'humbucker-4'])
      for (const name of ['north', 'south']) {
        const coil = coilOf(soundCircuit(`part p : ${type} { ${losses}, coupling 15% }`), 'p', name);
        expect(coil).toMatchObject({ eddyInductance: 0.3, lossExponent: 0.94, coverShading: 0.4 });
        expect(coil.eddyResistance!.value).toBeCloseTo(10e3, 9);
      }
    // Share of the flux in series at a tap of 75 %: (0.75² + 0.98 · 0.75 · 0.25) / (0.75² + 0.25² + 2 · 0.98 · 0.75 · 0.25).
    const inner = coilOf(soundCircuit(`part p : single-coil-tapped { ${losses}, tap 75% }`), 'p', 'inner');
    expect(inner.eddyResistance!.value).toBeCloseTo((20e3 * 0.74625) / 0.9925, 6);
  });

  it('are absent where nothing is said', () => {
    for (const name of ['eddyInductance', 'eddyResistance', 'lossExponent', 'coverShading'])
      expect(coilOf(soundCircuit('part p : single-coil'), 'p')).not.toHaveProperty(name);
  });

  it('are in the JSON of a circuit and in its signature', () => {
    const circuit = soundCircuit(
      'part p : single-coil { eddy-inductance 30%, eddy-resistance 20k, loss-exponent 0.94, cover-shading 40% }',
    );
    const addresses = { nameOf: (uri: string) => uri, uriOf: (name: string) => name };
    const back = circuitFromJson(JSON.parse(JSON.stringify(circuitToJson(circuit, addresses))), addresses);
    expect('circuit' in back ? coilOf(back.circuit, 'p') : back.problem).toMatchObject({
      eddyInductance: 0.3,
      lossExponent: 0.94,
      coverShading: 0.4,
    });
    const signatures = [
      'eddy-inductance 31%, eddy-resistance 20k, loss-exponent 0.94, cover-shading 40%',
      'eddy-inductance 30%, eddy-resistance 21k, loss-exponent 0.94, cover-shading 40%',
      'eddy-inductance 30%, eddy-resistance 20k, loss-exponent 0.95, cover-shading 40%',
      'eddy-inductance 30%, eddy-resistance 20k, loss-exponent 0.94, cover-shading 41%',
    ].map((losses) => valuesSignature(soundCircuit(`part p : single-coil { ${losses} }`)));
    expect(new Set([...signatures, valuesSignature(circuit)]).size).toBe(5);
  });

  const corner = ': with it and eddy-resistance the cover begins to shade the source at Re / (2π Le)';
  test.each([
    ['loss-exponent 0.4', ['loss-exponent of p must be between 0.5 and 1: 1 is an inductance without losses']],
    ['loss-exponent 1.1', ['loss-exponent of p must be between 0.5 and 1: 1 is an inductance without losses']],
    ['loss-exponent 94%', ['loss-exponent of p takes a plain number such as 5']],
    [
      'eddy-inductance 120%, eddy-resistance 20k',
      ['eddy-inductance of p must be between 0% and 100%: it is a share of the inductance'],
    ],
    ['eddy-inductance 30%, eddy-resistance 0.5R', ['eddy-resistance of p must be at least 1 Ω']],
    ['eddy-inductance 30%', ['eddy-inductance of p needs eddy-resistance, the resistance of the path of the eddy currents']],
    [
      'eddy-resistance 20k',
      ['eddy-resistance of p needs eddy-inductance, the share of the inductance that the eddy currents short'],
    ],
    ['cover-shading 40%', [`cover-shading of p needs eddy-inductance${corner}`]],
    [
      'cover-shading 40%, eddy-inductance 0%, eddy-resistance 20k',
      [`cover-shading of p needs an eddy-inductance greater than zero${corner}`],
    ],
    [
      'cover-shading 101%, eddy-inductance 30%, eddy-resistance 20k',
      ['cover-shading of p must be between 0% and 100%: it is a share of the voltage'],
    ],
  ])('{ %s } is refused in a sentence', (properties, expected) => {
    for (const type of ['single-coil', 'humbucker-4', 'single-coil-tapped'])
      expect(messages(`part p : ${type} { ${properties} }`), type).toEqual(expected);
  });

  it('must be alike in coils of your own type that share a field', () => {
    const type = (exponent: string): string => `
type twin : pickup {
  lugs hot ground
  takes a 0.9, b 0.9
  coil upper from middle to hot { resistance 4k, inductance 2H, coupling 20%, loss-exponent a }
  coil lower from ground to middle { resistance 3k, inductance 2H, coupling 20%, loss-exponent b }
}
part p : twin${exponent}`;
    expect(messages(type(''))).toEqual([]);
    expect(messages(type(' { a 0.8 }'))).toEqual(['loss-exponent of p must be the same in coils that share a field']);
  });
});

describe('a resonance in place of the inductance', () => {
  const peak = (text: string, load: string): number => {
    const circuit = soundCircuit(`part p : ${text}
part output : jack
wire p.hot to output.tip
wire p.ground to output.sleeve
rig { cable ${load}, input 1000000M }`);
    return response(circuit, restingSetting(circuit)).peak!.hz;
  };

  // f0 √(1 − 1/2Q²), Q = √(L/C)/R of a series circuit (textbook), solved for L at 3.1 kHz with 7 kΩ and 110 + 500 pF: with u = 1/L and
  // ω² = u/C − R²u²/2, u = (1 − √(1 − 2 R² C² ω²)) / (R² C).
  it('gives the inductance of the closed form', () => {
    const [ohm, farad, omega] = [7000, 610e-12, 2 * Math.PI * 3100];
    const henry = (ohm ** 2 * farad) / (1 - Math.sqrt(1 - 2 * (ohm * farad * omega) ** 2));
    const coil = coilOf(soundCircuit('part p : single-coil 7k 110pF { resonance 3.1kHz, resonance-load 500pF }'), 'p');
    expect(coil.inductance.value / henry).toBeCloseTo(1, 7);
    expect(coil.inductance.known).toBe(true);
  });

  const all = 'loss 400k, loss-exponent 0.94, eddy-inductance 30%, eddy-resistance 30k, cover-shading 30%';
  test.each(['', 'loss 300k', 'loss-exponent 0.94', 'eddy-inductance 30%, eddy-resistance 30k', all])(
    'puts the peak of the response where it is said: %s',
    (losses) => {
      for (const type of ['single-coil', 'humbucker', 'single-coil-tapped'])
        for (const [hz, load] of [
          [3100, '500pF'],
          [5200, '100pF'],
          [8000, '0pF'],
        ] as const) {
          const found = peak(`${type} 7k 110pF { resonance ${hz}Hz, resonance-load ${load}, ${losses} }`, load);
          expect(Math.abs(found / hz - 1), `${type} ${hz} Hz`).toBeLessThan(type === 'single-coil-tapped' ? 1e-3 : 1e-5);
        }
    },
  );

  it('is shared between two coils, coupling included, and shown as the inductance of the part', () => {
    const whole = coilOf(soundCircuit('part p : single-coil 8k 120pF { resonance 3kHz, resonance-load 500pF }'), 'p').inductance
      .value;
    const circuit = soundCircuit('part p : humbucker-4 8k 120pF { resonance 3kHz, resonance-load 500pF, coupling 25% }');
    expect(coilOf(circuit, 'p', 'north').inductance.value).toBeCloseTo(whole / 2.5, 9);
    expect(partOf(circuit, 'p').properties.inductance).toMatchObject({ value: whole, unit: 'henry' });
  });

  it('may be all that a coil of your own type gives', () => {
    const circuit = soundCircuit(`
type deep : pickup {
  lugs hot ground
  coil main from ground to hot { resistance 7k, capacitance 110pF, resonance 3.1kHz, resonance-load 500pF }
}
part p : deep`);
    expect(coilOf(circuit, 'p').inductance.value).toBeCloseTo(4.26, 1);
  });

  it('agrees with an inductance that puts the peak near it, and decides', () => {
    const found = coilOf(soundCircuit('part p : single-coil 7k 110pF { resonance 3.1kHz, resonance-load 500pF }'), 'p');
    const both = coilOf(soundCircuit('part p : single-coil 7k 4.5H 110pF { resonance 3.1kHz, resonance-load 500pF }'), 'p');
    expect(both.inductance.value).toBe(found.inductance.value);
  });

  test.each([
    [
      'single-coil 7k 110pF { resonance 3.1kHz }',
      'resonance of p needs resonance-load, the capacitance that was across the pickup when the peak was measured: cable, meter and a capacitor, if there was one',
    ],
    [
      'single-coil 7k 110pF { resonance-load 500pF }',
      'resonance-load of p needs resonance, the frequency of the peak with this load',
    ],
    ['single-coil 7k 110pF { resonance 0Hz, resonance-load 500pF }', 'resonance of p must be greater than zero'],
    [
      // 1 / (2π √2 · 7 kΩ · 610 pF) = 26.36 kHz
      'single-coil 7k 110pF { resonance 27kHz, resonance-load 500pF }',
      'resonance of p can’t be 27 kHz: with 7 kΩ, 610 pF in all and these losses no inductance puts the peak there',
    ],
    [
      // √(1/(2.6 · 610 pF) − 7000²/(2 · 2.6²)) / 2π = 3.98 kHz
      'single-coil 7k 2.6H 110pF { resonance 3.1kHz, resonance-load 500pF }',
      'inductance of p doesn’t fit its resonance: with 2.6 H the peak is at 3.98 kHz, not at 3.1 kHz. Leave out one of the two',
    ],
  ])('%s: %s', (part, message) => {
    expect(messages(`part p : ${part}`)).toEqual([message]);
    const circuit = circuitOf(`part p : ${part}`);
    if (!part.includes('{ resonance-load'))
      expect(coilOf(circuit, 'p').inductance).toMatchObject({ known: false, rejected: true });
  });

  it('a peak up to the bound of the closed form is reached', () => {
    expect(messages('part p : single-coil 7k 110pF { resonance 26kHz, resonance-load 500pF }')).toEqual([]);
  });

  it('offers the load that is missing', () => {
    const text = 'part p : single-coil 7k 110pF { resonance 3.1kHz }';
    const [problem] = circuitOf(text).problems;
    const fixed = problem!.fixes.map(({ edits: [edit] }) => {
      const at = edit!.range.start.character;
      expect(edit!.range.end).toEqual(edit!.range.start);
      return text.slice(0, at) + edit!.text + text.slice(at);
    });
    expect(fixed).toEqual([
      'part p : single-coil 7k 110pF { resonance 3.1kHz, resonance-load 500pF }',
      'part p : single-coil 7k 110pF { resonance 3.1kHz, resonance-load 0pF }',
    ]);
    for (const one of fixed) expect(messages(one)).toEqual([]);
  });
});
