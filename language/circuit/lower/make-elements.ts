/** Makes a part's elements from those of its type and the part's own values. */
import type { Builder, Instance } from './builder.js';
import { elementId, type Coil, type Diode, type Element, type Inductor, type Quantity } from '../model.js';
import { ElementReader, type ElementEnds } from './element-reader.js';
import { wordOf, type Properties } from './part-properties.js';
import type { Problems } from '../problems.js';
import { quantity } from '../quantities.js';
import type { CompiledType } from '../types/type-model.js';
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
      inductance: inductances.get(reader) ?? 1,
    });
    if (element.kind === 'coil') instance.coils.set(element.name, element.id);
    builder.elements.push(element);
    instance.part.elements.push(element.id);
  });
}

/** What a coil has of its pickup: of the voltage, and of the inductance. */
interface CoilShares {
  readonly output: number;
  readonly inductance: number;
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

function makeCoil(reader: ElementReader, base: ElementEnds, { output, inductance }: CoilShares): Coil {
  const share = reader.share() ?? 1;
  const loss = reader.atLeast('loss', 'ohm', leastLoss);
  const coupling = couplingOf(reader);
  const turns = reader.atLeast('turns', 'count', oneTurn);
  const own = reader.value('output', 'percent');
  const capacitance = reader.value('capacitance', 'farad') ?? quantity(0, 'farad');
  return {
    ...base,
    kind: 'coil',
    resistance: times(reader.positive('resistance', 'ohm', 6500), share),
    inductance: times(reader.positive('inductance', 'henry', 2.6), inductance),
    // Capacitances in series: each coil's is the whole divided by its share, so that both together give the whole. The windings of
    // one core share its flux, so that each carries its share of the voltage, and this too is the same as one across the whole.
    capacitance: times(capacitance, 1 / share),
    output: own === undefined ? output : own.value / 100,
    winding: sign(reader, 'wound', 'reverse'),
    magnet: sign(reader, 'magnet', 'south'),
    ...(loss === undefined ? {} : { loss: times(loss, share) }),
    ...(coupling === undefined ? {} : { coupling }),
    ...(turns === undefined ? {} : { turns: turns.value * share }),
  };
}

/** A capacitance with an EMF in series; its outputs and shares are those of a coil. */
function makePiezo(reader: ElementReader, base: ElementEnds, { output }: CoilShares): Coil {
  const own = reader.value('output', 'percent');
  return {
    ...base,
    kind: 'coil',
    piezo: true,
    resistance: quantity(0, 'ohm'),
    inductance: quantity(0, 'henry'),
    capacitance: times(reader.positive('capacitance', 'farad', 500e-12), 1 / (reader.share() ?? 1)),
    output: own === undefined ? output : own.value / 100,
    winding: sign(reader, 'wound', 'reverse'),
    magnet: 1,
    turns: 0,
  };
}

/** Less than this across the inductance is no model of eddy currents but a short, ohm. */
const leastLoss = { value: 1, text: '1 Ω' };
const oneTurn = { value: 1, text: '1 turn' };

/** The coupling factor between the pickup's coils, −1 to 1, both excluded: with 1 the coils would be one. */
function couplingOf(reader: ElementReader): number | undefined {
  const found = reader.value('coupling', 'percent');
  if (found === undefined) return undefined;
  if (Math.abs(found.value) < 100) return found.value / 100;
  reader.reject('coupling', found, 'must be between -100% and 100%, both excluded');
  return undefined;
}

/** The coil's own sense times the part's: a pickup that is wound in reverse has every coil of it reversed. */
function sign(reader: ElementReader, name: 'wound' | 'magnet', minus: string): 1 | -1 {
  const coil = reader.word(name) === minus && !reader.isParameter(name);
  const part = wordOf(reader.properties[name]) === minus;
  return coil === part ? 1 : -1;
}

/** The pickup's voltage shared between its coils: by their shares, the rest alike. */
function outputsOf(readers: readonly ElementReader[]): ReadonlyMap<ElementReader, number> {
  const coils = readers.filter(({ definition: { kind } }) => kind === 'coil' || kind === 'piezo');
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

/**
 * The pickup's inductance shared between its coils. A coil's own inductance goes by the square of its turns, and the whole, with the
 * coils in series, is L = L1 + L2 + 2 k √(L1 L2) (any text on mutual inductance), so each has L·n² / (n1² + n2² + 2 k n1 n2): L / (2 (1 + k)) for
 * two equal coils. Coils without a share state an inductance of their own.
 */
function inductanceSharesOf(readers: readonly ElementReader[]): ReadonlyMap<ElementReader, number> {
  const coils = readers.flatMap((reader) => {
    const turns = reader.definition.kind === 'coil' ? reader.share() : undefined;
    return turns === undefined ? [] : [{ reader, turns, coupling: couplingOf(reader) ?? 0 }];
  });
  let whole = coils.reduce((sum, { turns }) => sum + turns * turns, 0);
  const coupled = coils.filter(({ coupling }) => coupling !== 0);
  for (const [i, first] of coupled.entries()) {
    const second = i % 2 === 0 ? coupled[i + 1] : undefined;
    if (second !== undefined) whole += 2 * first.coupling * first.turns * second.turns;
  }
  return new Map(coils.map(({ reader, turns }) => [reader, whole > 0 ? (turns * turns) / whole : turns]));
}

function times(found: Quantity, factor: number): Quantity {
  return factor === 1 ? found : { ...found, value: found.value * factor };
}
