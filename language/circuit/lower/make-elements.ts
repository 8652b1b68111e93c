/** Makes a part's elements from those of its type and the part's own values. */
import type { Builder, Instance } from './builder.js';
import { elementId, type Diode, type Element, type Inductor } from '../model.js';
import { reportUnlike } from './coils/coil-losses.js';
import { ElementReader, type ElementEnds } from './element-reader.js';
import type { Properties } from './part-properties.js';
import type { Problems } from '../problems.js';
import type { CompiledType } from '../types/type-model.js';
import { type CoilShares, couplingOf, inductanceSharesOf, makeCoil, makePiezo, outputsOf, times } from './coils/make-coil.js';
import { makeGain } from './make-gain.js';
import { makeTrack } from './make-tracks.js';

/** Makes the elements of a part, in the type's order. */
export function makeElements(
  builder: Builder,
  instance: Instance,
  type: CompiledType,
  properties: Properties,
  problems: Problems,
): void {
  const readers = type.elements.map(
    (definition) => new ElementReader(definition, instance, properties, problems, builder.pickupTolerance),
  );
  const outputs = outputsOf(readers);
  const inductances = inductanceSharesOf(readers);
  reportUnlike(readers.filter((reader) => reader.definition.kind === 'coil' && couplingOf(reader) !== undefined));
  readers.forEach((reader) => {
    const { definition } = reader;
    const base = {
      id: elementId(builder.elements.length),
      part: instance.part.id,
      name: definition.name,
      a: builder.lug(instance, definition.a),
      b: builder.lug(instance, definition.b),
    };
    const element = makeElement(builder, reader, base, {
      output: outputs.get(reader) ?? 1,
      ...(inductances.get(reader) ?? { inductance: 1, linkage: 1 }),
    });
    if (element.kind === 'coil') instance.coils.set(element.name, element.id);
    builder.elements.push(element);
    instance.part.elements.push(element.id);
  });
}

function makeElement(builder: Builder, reader: ElementReader, base: ElementEnds, shares: CoilShares): Element {
  switch (reader.definition.kind) {
    case 'coil':
      return makeCoil(reader, base, shares);
    case 'piezo':
      return makePiezo(reader, base, shares);
    case 'resistor':
      return { ...base, kind: 'resistor', resistance: reader.positive('resistance', 'ohm', 1) };
    case 'capacitor':
      return { ...base, kind: 'capacitor', capacitance: reader.positive('capacitance', 'farad', 1e-12) };
    case 'inductor':
      return makeInductor(reader, base);
    case 'battery':
      return { ...base, kind: 'battery', voltage: reader.positive('voltage', 'volt', 9) };
    case 'track':
      return makeTrack(builder, reader, base);
    case 'diode':
      return makeDiode(reader, base);
    case 'gain':
      return makeGain(builder, reader, base);
  }
}

/** A winding of a transformer has the inductance of the other, times the square of its turns over that one's (any text on transformers). */
function makeInductor(reader: ElementReader, base: ElementEnds): Inductor {
  const resistance = reader.value('resistance', 'ohm');
  const ratio = reader.positive('ratio', 'count', 1);
  const inductance = times(reader.positive('inductance', 'henry', 1), ratio.value ** 2);
  const coupling = couplingOf(reader);
  return {
    ...base,
    kind: 'inductor',
    inductance,
    ...(resistance === undefined ? {} : { resistance }),
    ...(coupling === undefined ? {} : { coupling }),
  };
}

function makeDiode(reader: ElementReader, base: ElementEnds): Diode {
  const breakdown = reader.value('breakdown', 'volt');
  return {
    ...base,
    kind: 'diode',
    forward: reader.positive('forward', 'volt', 0.6),
    ...(breakdown === undefined ? {} : { breakdown }),
    ...(reader.word('lights') === 'yes' ? { lights: true } : {}),
  };
}
