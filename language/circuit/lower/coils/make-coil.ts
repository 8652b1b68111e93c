/** Makes coils: the windings of a pickup, each with its part of what the whole has, and piezo elements. */
import { leastLinkage } from '../../../coil/index.js';
import type { Coil, Quantity } from '../../model.js';
import { lossesOf } from './coil-losses.js';
import type { ElementEnds, ElementReader } from '../element-reader.js';
import { wordOf } from '../part-properties.js';
import { quantity } from '../../quantities.js';
import { inductanceOf } from './resonance.js';

/** What a coil has of its pickup: of the voltage, of the inductance, and of the flux with all coils in series, in phase. */
export interface CoilShares {
  readonly output: number;
  readonly inductance: number;
  readonly linkage: number;
}

export function makeCoil(reader: ElementReader, base: ElementEnds, { output, inductance, linkage }: CoilShares): Coil {
  const share = reader.share() ?? 1;
  const { loss, eddyResistance, ...losses } = lossesOf(reader);
  const coupling = couplingOf(reader);
  const turns = reader.atLeast('turns', 'count', oneTurn);
  const own = reader.value('output', 'percent');
  const resistance = reader.positive('resistance', 'ohm', 6500);
  const capacitance = reader.value('capacitance', 'farad') ?? quantity(0, 'farad');
  const whole = inductanceOf(reader, { resistance, capacitance, loss, eddyResistance, ...losses });
  return {
    ...base,
    kind: 'coil',
    resistance: times(resistance, share),
    inductance: times(whole, inductance),
    // Capacitances in series: each coil's is the whole divided by its share, so that both together give the whole. The windings of
    // one core share its flux, so that each carries its share of the voltage, and this too is the same as one across the whole.
    capacitance: times(capacitance, 1 / share),
    output: own === undefined ? output : own.value / 100,
    winding: sign(reader, 'wound', 'reverse'),
    magnet: sign(reader, 'magnet', 'south'),
    ...(loss === undefined ? {} : { loss: times(loss, share) }),
    ...losses,
    // So shared, the coils in series lose what the whole does, at whatever coupling.
    ...(eddyResistance === undefined ? {} : { eddyResistance: times(eddyResistance, linkage) }),
    ...(coupling === undefined ? {} : { coupling }),
    ...(turns === undefined ? {} : { turns: turns.value * share }),
  };
}

/** A capacitance with an EMF in series; its outputs and shares are those of a coil. */
export function makePiezo(reader: ElementReader, base: ElementEnds, { output }: CoilShares): Coil {
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

const oneTurn = { value: 1, text: '1 turn' };

/** The coupling factor between the pickup's coils, −1 to 1, both excluded: with 1 the coils would be one. */
export function couplingOf(reader: ElementReader): number | undefined {
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
export function outputsOf(readers: readonly ElementReader[]): ReadonlyMap<ElementReader, number> {
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
 * two equal coils; and n1² + k n1 n2 of the same sum is its share of the flux. Coils without a share state an inductance of their own.
 */
export function inductanceSharesOf(
  readers: readonly ElementReader[],
): ReadonlyMap<ElementReader, Pick<CoilShares, 'inductance' | 'linkage'>> {
  const coils = readers.flatMap((reader) => {
    const turns = reader.definition.kind === 'coil' ? reader.share() : undefined;
    return turns === undefined ? [] : [{ reader, turns, coupling: couplingOf(reader) ?? 0 }];
  });
  let whole = coils.reduce((sum, { turns }) => sum + turns * turns, 0);
  const coupled = coils.filter(({ coupling }) => coupling !== 0);
  const mutual = new Map<ElementReader, number>();
  for (const [i, first] of coupled.entries()) {
    const second = i % 2 === 0 ? coupled[i + 1] : undefined;
    if (second === undefined) continue;
    const between = first.coupling * first.turns * second.turns;
    whole += 2 * between;
    for (const { reader } of [first, second]) mutual.set(reader, between);
  }
  const shareOf = (square: number, turns: number): number => (whole > 0 ? square / whole : turns);
  return new Map(
    coils.map(({ reader, turns }) => {
      const inductance = shareOf(turns * turns, turns);
      // A field that is nearly all taken away leaves something of it.
      const linkage = Math.max(shareOf(turns * turns + (mutual.get(reader) ?? 0), turns), inductance * leastLinkage);
      return [reader, { inductance, linkage }];
    }),
  );
}

export function times(found: Quantity, factor: number): Quantity {
  return factor === 1 ? found : { ...found, value: found.value * factor };
}
