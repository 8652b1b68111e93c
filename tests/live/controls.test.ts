/** What a player operates, and the setting that it makes: a relay is worked by its battery alone. */
import { describe, expect, it } from 'vitest';
import { describeSound, settingLabel } from '../../language/electrics/index.js';
import { controlsOf, settingAt } from '../../language/live/index.js';
import { soundCircuit } from '../circuit/harness.js';
import { read } from '../harness/checkout.js';

describe('an instrument with a relay', () => {
  const circuit = soundCircuit(read('examples/transformer-and-relay.lug'));
  const at = (positions: Readonly<Record<string, string>>) => {
    const setting = settingAt(circuit, { positions, rotations: {} });
    return [settingLabel(circuit, setting), describeSound(circuit, setting).text];
  };

  it('offers its switch and its pot, not the relay', () => {
    expect(controlsOf(circuit).map(({ name }) => name)).toEqual(['call', 'volume']);
  });

  // The positions that the example's own expectations name.
  it('sounds the other pickup where the switch closes the circuit of the coil', () => {
    expect(at({ call: 'on' })).toEqual(['change energised, call on', 'neck']);
    expect(at({ call: 'off' })).toEqual(['call off', 'bridge']);
  });

  it('brings a relay where its battery does, whatever was asked of it', () => {
    expect(at({ call: 'off', change: 'energised' })).toEqual(['call off', 'bridge']);
  });
});
