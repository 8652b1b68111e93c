/** Makes amplifier stages: buffers and preamps, op-amps, transistors for small signals. */
import type { Builder } from './builder.js';
import type { Band, Gain } from '../model.js';
import type { ElementEnds, ElementReader } from './element-reader.js';
import { shaftOf } from './make-tracks.js';

export function makeGain(builder: Builder, reader: ElementReader, base: ElementEnds): Gain {
  const { definition, instance } = reader;
  const lugNamed = (property: string) => {
    const name = reader.word(property);
    return name === undefined ? undefined : builder.lug(instance, name);
  };
  const outputResistance = reader.positive('output', 'ohm', 1e3);
  const transconductance = reader.value('transconductance', 'siemens');
  const current = reader.value('current', 'ampere');
  const inverting = lugNamed('inverting');
  // The current that a transistor drives through its output resistance, by Norton and Thévenin: it flows into its output.
  const gain =
    transconductance === undefined
      ? (reader.value('gain', 'count')?.value ?? 1)
      : -transconductance.value * outputResistance.value;
  const bands = bandsOf(builder, reader, gain);
  const polarity = reader.word('polarity') ?? 'n';
  return {
    ...base,
    kind: 'gain',
    plus: lugNamed('plus') ?? builder.lug(instance, definition.a),
    minus: lugNamed('minus') ?? builder.lug(instance, definition.b),
    gain,
    inputResistance: reader.positive('input', 'ohm', 1e6),
    outputResistance,
    ...(inverting === undefined ? {} : { inverting }),
    ...(transconductance === undefined ? {} : { transistor: polarity.startsWith('n') ? 'forward' : 'backward' }),
    ...(current === undefined ? {} : { current }),
    ...(bands.length === 0 ? {} : { bands }),
  };
}

/** A stage whose gain-bandwidth is given has its pole where the open-loop gain has fallen by 3 dB: gain-bandwidth over gain (any text on op-amps). */
function bandsOf(builder: Builder, reader: ElementReader, gain: number): readonly Band[] {
  const bands: Band[] = [];
  const pole = reader.value('pole', 'hertz');
  if (pole !== undefined) bands.push({ kind: 'pole', hz: reader.positive('pole', 'hertz', 20e3).value });
  if (reader.value('gain-bandwidth', 'hertz') !== undefined)
    bands.push({ kind: 'pole', hz: reader.positive('gain-bandwidth', 'hertz', 1e6).value / Math.max(Math.abs(gain), 1e-9) });
  for (const kind of ['bass', 'mid', 'treble'] as const) {
    const [db, hz] = [reader.value(kind, 'decibel'), reader.value(`${kind} at`, 'hertz')];
    if (db === undefined || hz === undefined) continue;
    if (hz.value === 0) {
      reader.reject(`frequency of ${kind}`, hz, 'must be greater than zero');
      continue;
    }
    const knob = reader.word(`${kind} by`);
    const shaft = knob === undefined ? undefined : shaftOf(builder, reader, knob, { left: false, rest: 5 });
    bands.push({
      kind,
      hz: hz.value,
      db: db.value,
      ...(shaft === undefined ? {} : { shaft }),
    });
  }
  return bands;
}
