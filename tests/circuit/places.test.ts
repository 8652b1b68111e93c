/** Cavities, channels, plates, and the metal that touches. */
import { expect, test } from 'vitest';
import { jointsOf, lugOf, partOf, soundCircuit } from './harness.js';

const PARTS = `
part volume, tone : pot
part selector : toggle-3
part out : jack
part boxed-out : jack { boxed }
part free : pot { insulated }
part p : single-coil
cavity control shield depth 38mm
cavity rout depth 25mm
`;

test('a shielded cavity is a metal thing with one lug; a bare one is none', () => {
  const circuit = soundCircuit(`${PARTS}\nwire control to out.sleeve`);
  expect(circuit.cavities).toMatchObject([
    { name: 'control', shielded: true, depth: 0.038, part: partOf(circuit, 'control').id },
    { name: 'rout', shielded: false, depth: 0.025 },
  ]);
  expect(partOf(circuit, 'control')).toMatchObject({ family: 'cavity', type: 'cavity' });
  expect(lugOf(circuit, 'control')).toMatchObject({ metal: true, takesMany: true });
  expect(jointsOf(circuit)).toEqual(['wire control out.sleeve']);
});

test('a metal plate joins cases, frames and open bushings, but those insulated or boxed, and touches the paint of its cavity', () => {
  const circuit = soundCircuit(`${PARTS}
plate top in control metal { volume at 20 30, tone, selector at 5.5cm 1in, out, boxed-out, free, p }
`);
  expect(jointsOf(circuit)).toEqual([
    'touch top volume.case',
    'touch top tone.case',
    'touch top selector.frame',
    'touch top out.sleeve',
    'touch top control',
  ]);
  expect(circuit.plates).toMatchObject([
    { name: 'top', cavity: 'control', metal: true, shielded: false, part: partOf(circuit, 'top').id },
  ]);
  expect(circuit.plates[0]!.carries.map((id) => circuit.parts[id]!.name)).toEqual([
    'volume',
    'tone',
    'selector',
    'out',
    'boxed-out',
    'free',
    'p',
  ]);
  expect(partOf(circuit, 'volume')).toMatchObject({ plate: 'top', cavity: 'control', at: { x: 0.02, y: 0.03 } });
  expect(partOf(circuit, 'selector').at).toEqual({ x: 0.055, y: 0.0254 });
  expect(partOf(circuit, 'tone').at).toBeUndefined();
});

test('a plastic plate with a shield behind does the same; a bare plastic one joins nothing', () => {
  expect(jointsOf(soundCircuit(`${PARTS}\nplate cover in rout shield { volume }`))).toEqual(['touch cover volume.case']);
  const bare = soundCircuit(`${PARTS}\nplate cover in control { volume }`);
  expect(bare.joints).toEqual([]);
  expect(bare.plates[0]!.part).toBeUndefined();
  expect(partOf(bare, 'volume').cavity).toBe('control');
});

test('what stands inside an assembly on a plate touches it too', () => {
  const circuit = soundCircuit(`
type box : assembly {
  lugs in
  part p : pot
  wire in to p.3
}
part b : box
cavity control
plate top in control metal { b }
`);
  expect(jointsOf(circuit)).toEqual(['inside b b.p.3', 'touch top b.p.case']);
  expect(partOf(circuit, 'b.p')).toMatchObject({ plate: 'top', cavity: 'control' });
});

test('a wire may be tied to a plate’s metal, above the line that declares it', () => {
  expect(jointsOf(soundCircuit(`${PARTS}\nwire top to out.sleeve\nplate top in rout metal { tone }`))).toEqual([
    'wire top out.sleeve',
    'touch top tone.case',
  ]);
});

test('parts are put in a cavity, and channels run between cavities', () => {
  const circuit = soundCircuit(`${PARTS}\nplace p, out in rout at 10 20\nchannel control to rout 85mm bore 6mm`);
  expect(partOf(circuit, 'p')).toMatchObject({ cavity: 'rout', at: { x: 0.01, y: 0.02 } });
  expect(partOf(circuit, 'out').plate).toBeUndefined();
  expect(circuit.channels).toMatchObject([{ from: 'control', to: 'rout', length: 0.085, bore: 0.006 }]);
});

test('a plate has a size, bare numbers in millimetres; a part a hole; a battery what it holds', () => {
  const circuit = soundCircuit(`${PARTS}
part wide : pot { hole 9.5mm }
part cell : battery 9V { capacity 550mAh }
plate top in control size 120 6cm thick 2mm { volume }
`);
  expect(circuit.plates).toMatchObject([{ size: { width: 0.12, height: 0.06 }, thick: 0.002 }]);
  expect(partOf(circuit, 'wide').properties.hole).toMatchObject({ value: 0.0095, unit: 'metre' });
  expect(partOf(circuit, 'cell').properties.capacity).toMatchObject({ value: 0.55, unit: 'ampere-hour' });
  expect(partOf(circuit, 'volume').properties.hole).toBeUndefined();
});
