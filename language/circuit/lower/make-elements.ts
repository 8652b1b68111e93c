/** Makes a part's elements from those of its type and the part's own values. */
import type { Builder, Instance } from './builder.js';
import { elementId, type Coil, type Element, type Quantity } from '../model.js';
import { ElementReader, type ElementEnds } from './element-reader.js';
import { wordOf, type Properties } from './part-properties.js';
import type { Problems } from '../problems.js';
import { quantity } from '../quantities.js';
import type { CompiledType } from '../types/type-model.js';
import { makeTrack } from './make-tracks.js';

/** Makes the elements of a part, in the type's order. */
export function makeElements(
  builder: Builder,
  instance: Instance,
  type: CompiledType,
  properties: Properties,
  problems: Problems,
): void {
  const readers = type.elements.map((definition) => new ElementReader(definition, instance, properties, problems));
  const outputs = outputsOf(readers);
  readers.forEach((reader) => {
    const { definition } = reader;
    const base = {
      id: elementId(builder.elements.length),
      part: instance.part.id,
      name: definition.name,
      a: builder.lug(instance, definition.a),
      b: builder.lug(instance, definition.b),
    };
    const element = makeElement(builder, reader, base, outputs.get(reader) ?? 1);
    if (element.kind === 'coil') instance.coils.set(element.name, element.id);
    builder.elements.push(element);
    instance.part.elements.push(element.id);
  });
}

function makeElement(builder: Builder, reader: ElementReader, base: ElementEnds, output: number): Element {
  const { definition, instance } = reader;
  switch (definition.kind) {
    case 'coil':
      return makeCoil(reader, base, output);
    case 'resistor':
      return { ...base, kind: 'resistor', resistance: reader.positive('resistance', 'ohm', 1) };
    case 'capacitor':
      return { ...base, kind: 'capacitor', capacitance: reader.positive('capacitance', 'farad', 1e-12) };
    case 'inductor': {
      const resistance = reader.value('resistance', 'ohm');
      const inductance = reader.positive('inductance', 'henry', 1);
      return { ...base, kind: 'inductor', inductance, ...(resistance === undefined ? {} : { resistance }) };
    }
    case 'battery':
      return { ...base, kind: 'battery', voltage: reader.positive('voltage', 'volt', 9) };
    case 'track':
      return makeTrack(builder, reader, base);
    case 'gain': {
      const current = reader.value('current', 'ampere');
      return {
        ...base,
        kind: 'gain',
        plus: builder.lug(instance, reader.word('plus') ?? definition.a),
        minus: builder.lug(instance, reader.word('minus') ?? definition.b),
        gain: reader.value('gain', 'count')?.value ?? 1,
        inputResistance: reader.positive('input', 'ohm', 1e6),
        outputResistance: reader.positive('output', 'ohm', 1e3),
        ...(current === undefined ? {} : { current }),
      };
    }
  }
}

function makeCoil(reader: ElementReader, base: ElementEnds, output: number): Coil {
  const share = reader.share() ?? 1;
  const loss = reader.value('loss', 'ohm');
  const coupling = reader.value('coupling', 'percent');
  const own = reader.value('output', 'percent');
  const capacitance = reader.value('capacitance', 'farad') ?? quantity(0, 'farad');
  return {
    ...base,
    kind: 'coil',
    resistance: times(reader.positive('resistance', 'ohm', 6500), share),
    inductance: times(reader.positive('inductance', 'henry', 2.6), share),
    // Capacitances in series: each coil's is the whole divided by its share, so that both together give the whole.
    capacitance: times(capacitance, 1 / share),
    output: own === undefined ? output : own.value / 100,
    winding: sign(reader, 'wound', 'reverse'),
    magnet: sign(reader, 'magnet', 'south'),
    ...(loss === undefined || loss.value <= 0 ? {} : { loss: times(loss, share) }),
    ...(coupling === undefined ? {} : { coupling: Math.min(coupling.value / 100, 0.999) }),
  };
}

/** The coil's own sense times the part's: a pickup that is wound in reverse has every coil of it reversed. */
function sign(reader: ElementReader, name: 'wound' | 'magnet', minus: string): 1 | -1 {
  const coil = reader.word(name) === minus && !reader.isParameter(name);
  const part = wordOf(reader.properties[name]) === minus;
  return coil === part ? 1 : -1;
}

/** The pickup's voltage shared between its coils: by their shares, the rest alike. */
function outputsOf(readers: readonly ElementReader[]): ReadonlyMap<ElementReader, number> {
  const coils = readers.filter((reader) => reader.definition.kind === 'coil');
  const shares = coils.map((reader) => reader.share());
  const left = shares.filter((share) => share === undefined).length;
  const rest = 1 - shares.reduce<number>((sum, share) => sum + (share ?? 0), 0);
  const outputs = new Map<ElementReader, number>();
  coils.forEach((reader, index) => {
    const output = reader.number('output', reader.properties) ?? 100;
    const share = shares[index] ?? (rest > 0 ? rest / left : 1 / coils.length);
    outputs.set(reader, (output / 100) * share);
  });
  return outputs;
}

function times(found: Quantity, factor: number): Quantity {
  return factor === 1 ? found : { ...found, value: found.value * factor };
}
