/** What is lit in a setting, against ways followed by hand and against the nets. */
import { describe, expect, test } from 'vitest';
import { createDiagram, highlightOf, type Highlight } from '../../language/drawing/index.js';
import { describeSound, enumerate, nets, restingSetting, withPosition, withRotation } from '../../language/electrics/index.js';
import type { AnalysedCircuit } from '../../language/circuit/model.js';
import { circuitOf, circuitOfText, examples } from './support.js';

function at(circuit: AnalysedCircuit, positions: Record<string, number> = {}, rotations: Record<string, number> = {}): Highlight {
  let setting = restingSetting(circuit);
  for (const device of circuit.switches)
    if (device.name in positions) setting = withPosition(setting, device.id, positions[device.name]! - 1);
  for (const shaft of circuit.shafts)
    if (shaft.name in rotations) setting = withRotation(setting, shaft.id, rotations[shaft.name]!);
  return highlightOf(circuit, createDiagram(circuit), setting);
}

const having = ({ states }: Highlight, state: string, kind = 'wire'): string[] =>
  Object.entries(states)
    .filter(([id, all]) => id.startsWith(`${kind}:`) && (all as readonly string[]).includes(state))
    .map(([id]) => id.slice(kind.length + 1))
    .sort();

describe('two single-coils on a lever', () => {
  const circuit = circuitOf('two-single-coils-lever-3');

  // Followed by hand: the bridge comes in on A1, which position 1 joins to A0; A0 and B0 are one, and go to the volume and on to the tip.
  test('position 1: the bridge’s way', () => {
    const shown = at(circuit, { selector: 1 });
    expect(having(shown, 'lit')).toEqual([
      'bridge.hot~selector.A1',
      'output.tip~volume.2',
      'selector.A0~selector.B0',
      'selector.B0~volume.3',
    ]);
    expect(having(shown, 'return')).toEqual(['bridge.ground~volume.case', 'output.sleeve~tone.case', 'tone.case~volume.case']);
    expect(having(shown, 'lit', 'part')).toEqual(['bridge']);
    expect(having(shown, 'idle', 'part')).toContain('neck');
    expect(having(shown, 'idle')).toContain('neck.hot~selector.B3');
    expect(having(shown, 'closed', 'contact')).toEqual(['selector:A0+A1', 'selector:B0+B1']);
    expect(having(shown, 'lit', 'contact')).toEqual(['selector:A0+A1']);
    expect(shown.says).toBe('selector "bridge": sounds bridge, hum present');
  });

  // By hand: in 2 the bridge goes over the jumper to A2, the neck over its own to B2.
  test('position 2: both', () => {
    const shown = at(circuit, { selector: 2 });
    expect(having(shown, 'lit')).toEqual([
      'bridge.hot~selector.A1',
      'neck.hot~selector.B3',
      'output.tip~volume.2',
      'selector.A0~selector.B0',
      'selector.A1~selector.A2',
      'selector.B0~volume.3',
      'selector.B2~selector.B3',
    ]);
    expect(having(shown, 'lit', 'contact')).toEqual(['selector:A0+A2', 'selector:B0+B2']);
  });

  test('the tone control hangs on the signal: neither lit nor idle', () => {
    const { states } = at(circuit, { selector: 1 });
    expect(states['wire:tone.2~volume.3']).toBeUndefined();
  });

  test('volume at 0: nothing is lit, the jack is marked where its tip lies on its sleeve', () => {
    const shown = at(circuit, { selector: 1 }, { volume: 0 });
    expect(having(shown, 'lit')).toEqual([]);
    expect(shown.says).toContain('silent');
  });
});

test('a coil whose ends meet is marked as shorted', () => {
  const circuit = circuitOfText(
    'part a : single-coil\npart b : single-coil\npart output : jack\nwire a.hot to output.tip\nwire a.ground to output.sleeve\nwire b.hot to b.ground\nwire b.ground to output.sleeve',
  );
  expect(having(at(circuit), 'shorted', 'part')).toEqual(['b']);
});

test('series: one coil’s return is the other’s way', () => {
  const circuit = circuitOf('two-single-coils-lever-4');
  const shown = at(circuit, { selector: 4 });
  expect(shown.says).toContain('series(bridge, neck)');
  expect(having(shown, 'lit', 'part')).toEqual(['bridge', 'neck']);
  // By hand: bridge.hot to A1, jumper to A2, wire to B4, contact to B0, neck.ground; the neck's hot lies on A0.
  for (const wire of [
    'bridge.hot~selector.A1',
    'selector.A1~selector.A2',
    'selector.A2~selector.B4',
    'neck.ground~selector.B0',
    'selector.A0~volume.3',
  ]) {
    expect(having(shown, 'lit')).toContain(wire);
  }
});

describe.each(examples)('%s', (name) => {
  const circuit = circuitOf(name);
  const diagram = createDiagram(circuit);

  test('every setting lights from each heard coil to the tip and back, and nothing else', () => {
    for (const setting of enumerate(circuit, { limit: 64 }).settings) {
      const sound = describeSound(circuit, setting);
      const shown = highlightOf(circuit, diagram, setting);
      const folded = nets(circuit, setting.positions);
      const netOf = (id: string): number => folded.of[circuit.lugs.find((lug) => `lug:${lug.label}` === id)!.id]!;
      const lit = diagram.runs.filter((run) => shown.states[run.id]?.includes('lit'));
      const back = diagram.runs.filter((run) => shown.states[run.id]?.includes('return'));
      expect(lit.length > 0).toBe(!sound.silent);
      if (sound.silent) continue;
      expect(shown.states[`lug:${circuit.lugs[circuit.output!.tip]!.label}`]).toContain('lit');
      expect(shown.states[`lug:${circuit.lugs[circuit.output!.sleeve]!.label}`]).toContain('return');
      expect(lit.filter((run) => netOf(run.to) === folded.ground).map((run) => run.id)).toEqual([]);
      expect(back.filter((run) => netOf(run.to) === folded.tip).map((run) => run.id)).toEqual([]);
      for (const { coil } of sound.heard) {
        const part = circuit.parts[circuit.elements[coil]!.part]!;
        expect(shown.states[`part:${part.name}`]).toEqual(['lit']);
      }
    }
  });

  test('contacts named in a setting are contacts of the scene’s diagram', () => {
    const contacts = new Set(diagram.parts.flatMap((part) => part.contacts.map((contact) => contact.id)));
    for (const setting of enumerate(circuit, { limit: 64 }).settings) {
      const { states } = highlightOf(circuit, diagram, setting);
      expect(Object.keys(states).filter((id) => id.startsWith('contact:') && !contacts.has(id))).toEqual([]);
    }
  });
});
