/** All findings of a circuit together: their order, other severities, what is set aside, and expectations position by position. */
import { altered } from '../../language/circuit/model.js';
import { describeFound } from '../../language/checks/index.js';
import { expect, test } from 'vitest';
import { findings, setAside } from '../../language/findings.js';
import { evaluate } from '../../language/intent/index.js';
import { circuitOf, findingsOf, line, textsIn } from './harness.js';

const base = new Map(textsIn('correct', '.lug'));
const lever = base.get('two-on-a-lever')!;

test('findings stand in the order of the text, errors before the rest at one place', () => {
  const text = `${lever.replace('wire saddle         to volume.case\n', '').replace('wire selector.frame to volume.case\n', '')}
expect selector 2 : sounds neck, hum present
expect selector 1 : soonds bridge
`;
  const places = findings(circuitOf(text)).map(({ range, rule }) => `${range.start.line} ${rule}`);
  expect(places).toEqual([...places].sort((a, b) => Number.parseInt(a) - Number.parseInt(b)));
  expect(places.map((place) => place.split(' ')[1])).toEqual([
    'floating-metal',
    'floating-metal',
    'expectation',
    'expectation',
    'syntax',
  ]);
});

test('a severity can be changed, and a rule switched off', () => {
  const circuit = circuitOf(lever.replace('wire saddle         to volume.case\n', ''));
  expect(findings(circuit).map(({ severity }) => severity)).toEqual(['error']);
  expect(findings(circuit, { severities: { 'floating-metal': 'hint' } }).map(({ severity }) => severity)).toEqual(['hint']);
  expect(findings(circuit, { severities: { 'floating-metal': 'off' } })).toEqual([]);
  expect(findings(circuit, { rules: ['never-heard'] })).toEqual([]);
});

test('an allow of a rule that is switched off still meets its finding', () => {
  const circuit = circuitOf(
    `${lever.replace('wire saddle         to volume.case\n', '')}\nallow floating-metal on saddle "bone"\n`,
  );
  expect(findings(circuit, { severities: { 'floating-metal': 'off' } })).toEqual([]);
});

test('an allow does not set aside a fault of the text', () => {
  const circuit = circuitOf(`${lever}\nwire neck.hott to volume.3\nallow unknown-name "later"\n`);
  expect(findings(circuit).map(({ rule }) => rule)).toEqual(['unknown-name', 'idle-allow']);
});

test('findings of an assembly stand at its part in the instrument', () => {
  const text = `${base.get('tone-at-the-output')!}
part bleed : two-in-a-box
wire volume.3 to bleed.top
wire bleed.bottom to volume.2
type two-in-a-box : assembly {
  lugs top bottom
  part c : capacitor 680pF from top to bottom
  part r : resistor 150k
  wire top to r.a
}
`;
  const [found, ...more] = findings(circuitOf(text));
  expect(more.map(line)).toEqual([]);
  expect(line(found!)).toMatch(/^error loose-lead on bleed\.r\.b, bleed\.r, bleed: bleed\.r\.b is not soldered to anything/);
  expect(text.split('\n')[found!.range.start.line]).toBe('part bleed : two-in-a-box');
});

test('an expectation is judged in each position it speaks of', () => {
  const circuit = circuitOf(`${lever}\nexpect : sounds bridge, reads 6.6k\n`);
  const [sounds, reads] = evaluate(circuit, circuit.expectations[0]!);
  expect(sounds!.outcomes.map(({ verdict, found }) => `${verdict}: ${describeFound(found)}`)).toEqual([
    'held: only bridge is heard',
    'failed: parallel(bridge, neck) is heard',
    'failed: only neck is heard',
  ]);
  // 6.8k beside 250k is 6620 R; 6.1k is 5955 R, which lies 9.8 % below 6.6k; the pair is 3175 R.
  expect(reads!.outcomes.map(({ verdict }) => verdict)).toEqual(['held', 'failed', 'failed']);
});

test('a line about one position is judged in that one, with the pots as it says', () => {
  const circuit = circuitOf(`${lever}\nexpect selector 3, volume 0 : silent\n`);
  const [silent] = evaluate(circuit, circuit.expectations[0]!);
  expect(silent!.outcomes.map(({ setting, verdict }) => [setting.positions, setting.rotations, verdict])).toEqual([
    [[2], [0], 'held'],
  ]);
});

test('a reading of two probes inside is taken between them', () => {
  const circuit = circuitOf(`${lever}\nmeasured between neck.hot and neck.ground selector 1 : reads 6.1k\n`);
  expect(evaluate(circuit, circuit.measurements[0]!).map(({ verdict }) => verdict)).toEqual(['held']);
});

test('a circuit with changed joints is judged without a text', () => {
  const circuit = circuitOf(`${lever}\nexpect selector 3 : sounds neck\n`);
  const lead = circuit.joints.find(({ a }) => circuit.lugs[a]!.label === 'neck.hot')!;
  const other = circuit.lugs.find(({ label }) => label === 'selector.A2')!;
  const moved = altered(circuit, { joints: circuit.joints.map((joint) => (joint === lead ? { ...joint, b: other.id } : joint)) });
  expect(findings(circuit)).toEqual([]);
  // The pickup on throw A2 shares the bridge's net, and is heard with it where it should not be.
  expect(findings(moved).map(({ rule }) => rule)).toContain('expectation');
});

test('what is set aside keeps its allow, in the order of the text', () => {
  const faulty = lever.replace('wire saddle         to volume.case\n', '').replace('wire selector.frame to volume.case\n', '');
  const on = (name: string, why: string): string => `allow floating-metal on ${name} "${why}"\n`;
  const circuit = circuitOf(`${on('saddle', 'bone')}${on('selector', 'plastic')}${faulty}`);
  const found = setAside(circuit);
  expect(found.map(({ finding }) => finding.message)).toEqual(findings(circuitOf(faulty)).map(({ message }) => message));
  // In the text the selector comes before the saddle.
  expect(found.map(({ allow }) => [allow.on, allow.why])).toEqual([
    ['selector', 'plastic'],
    ['saddle', 'bone'],
  ]);
  expect(setAside(circuitOf(faulty))).toEqual([]);
});

test('a position that is silent at the ring alone, with a stereo plug that leaves the battery off, is not called silent: it sounds at the tip', () => {
  const found = findingsOf(`part bridge  : single-coil 6.8k 2.8H 115pF
part switch  : toggle-3
part stage   : buffer
part battery : battery 9V
part filter  : electrolytic 10uF from stage.in to output.sleeve
part output  : jack-stereo
part neck    : single-coil 6.8k 2.8H 115pF
wire bridge.hot to switch.A
wire neck.hot to switch.B
wire switch.out to stage.in
wire stage.out to output.tip
wire battery.plus to stage.plus
wire battery.minus to output.ring
wire stage.minus to output.sleeve
wire bridge.ground to stage.plus
wire neck.ground to switch.frame to output.sleeve
`);
  expect(found.map(({ rule }) => rule).sort()).toEqual(['constant-cut', 'ground-lead', 'supply-on-signal']);
});
