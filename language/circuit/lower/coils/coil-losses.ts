/** What a winding loses in its core and its cover, as the text says it; values that can't be are reported. */
import type { Coil, Quantity } from '../../model.js';
import type { ElementReader } from '../element-reader.js';

/** Of the whole pickup, as the text gives it. */
export type Losses = Pick<Coil, 'loss' | 'eddyInductance' | 'eddyResistance' | 'lossExponent' | 'coverShading'>;

/** Less than this is no model of eddy currents but a short, ohm. */
const leastOhm = { value: 1, text: '1 Ω' };

/** Reads the losses; a value that can't be, and one that says nothing without another, is left out. */
export function lossesOf(reader: ElementReader): Losses {
  const loss = reader.atLeast('loss', 'ohm', leastOhm);
  const exponent = reader.value('loss-exponent', 'count');
  const isExponent = exponent !== undefined && exponent.value >= 0.5 && exponent.value <= 1;
  if (exponent !== undefined && !isExponent)
    reader.reject('loss-exponent', exponent, 'must be between 0.5 and 1: 1 is an inductance without losses');
  return {
    ...(loss === undefined ? {} : { loss }),
    ...(isExponent ? { lossExponent: exponent.value } : {}),
    ...eddyOf(reader),
  };
}

function eddyOf(reader: ElementReader): Losses {
  const inductance = shareOf(reader, 'eddy-inductance', 'it is a share of the inductance');
  const resistance = reader.atLeast('eddy-resistance', 'ohm', leastOhm);
  const shading = shareOf(reader, 'cover-shading', 'it is a share of the voltage');
  if (inductance === undefined || resistance === undefined) {
    needs(reader, 'eddy-inductance', 'eddy-resistance', ', the resistance of the path of the eddy currents');
    needs(reader, 'eddy-resistance', 'eddy-inductance', ', the share of the inductance that the eddy currents short');
    if (inductance === undefined) needs(reader, 'cover-shading', 'eddy-inductance', corner);
    else needs(reader, 'cover-shading', 'eddy-resistance', corner);
    return {};
  }
  if (inductance.value === 0 && shading !== undefined && shading.value > 0)
    reader.reject('cover-shading', shading, `needs an eddy-inductance greater than zero${corner}`);
  if (inductance.value === 0) return {};
  return {
    eddyInductance: inductance.value / 100,
    eddyResistance: resistance,
    ...(shading === undefined ? {} : { coverShading: shading.value / 100 }),
  };
}

const corner = ': with it and eddy-resistance the cover begins to shade the source at Re / (2π Le)';

function shareOf(reader: ElementReader, name: string, why: string): Quantity | undefined {
  const found = reader.value(name, 'percent');
  if (found === undefined || (found.value >= 0 && found.value <= 100)) return found;
  reader.reject(name, found, `must be between 0% and 100%: ${why}`);
  return undefined;
}

/** Reports a property that is given without the other one. */
function needs(reader: ElementReader, name: string, other: string, why: string): void {
  if (reader.isGiven(other)) return;
  const found = reader.isGiven(name) ? reader.value(name, unitOf[name] ?? 'percent') : undefined;
  if (found !== undefined) reader.reject(name, found, `needs ${other}${why}`);
}

const unitOf: Readonly<Record<string, Quantity['unit']>> = { 'eddy-resistance': 'ohm' };

/** Reports coils that share a field and don't lose alike: what each gives the other has no meaning then. */
export function reportUnlike(coupled: readonly ElementReader[]): void {
  const [first, second] = coupled;
  if (first === undefined || second === undefined) return;
  for (const name of ['loss-exponent', 'eddy-inductance'] as const) {
    const unit = name === 'loss-exponent' ? 'count' : 'percent';
    if (first.value(name, unit)?.value === second.value(name, unit)?.value) continue;
    const { name: part } = second.instance.part;
    second.problems.add(
      'value',
      second.definition.nameRange ?? second.definition.range,
      `${name} of ${part} must be the same in coils that share a field`,
    );
  }
}
