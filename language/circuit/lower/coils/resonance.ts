/** The inductance of a pickup: as the text gives it, or found from the peak that was measured with a known capacitance across it. */
import { inductanceAtPeak, peakWith, type WindingValues } from '../../../coil/index.js';
import { amount } from '../../amount.js';
import type { Coil, Quantity } from '../../model.js';
import { replaceWith } from '../../problems.js';
import type { Losses } from './coil-losses.js';
import type { ElementReader } from '../element-reader.js';

/** What decides the peak besides the inductance, of the whole pickup. */
export type Winding = Pick<Coil, 'resistance' | 'capacitance'> & Losses;

/** A stated inductance may put the peak this far from the stated one; beyond, the two are not of one pickup. A share of the frequency. */
const mostApart = 0.1;

/**
 * The inductance of the whole. Where `resonance` is given it decides: the inductance that acts at the peak, losses counted, is found from it. What is
 * missing, contradicts or can't be reached is reported, and there are no figures then.
 */
export function inductanceOf(reader: ElementReader, winding: Winding): Quantity {
  const stated = reader.positive('inductance', 'henry', 2.6);
  const resonance = reader.value('resonance', 'hertz');
  const load = reader.value('resonance-load', 'farad');
  if (resonance === undefined) {
    if (load !== undefined) reader.reject('resonance-load', load, 'needs resonance, the frequency of the peak with this load');
    return stated;
  }
  const failed: Quantity = { ...stated, known: false, rejected: true };
  if (!(resonance.value > 0)) {
    reader.reject('resonance', resonance, 'must be greater than zero');
    return failed;
  }
  if (load === undefined) {
    askForLoad(reader, resonance);
    return failed;
  }
  const values = valuesOf(winding);
  const henry = inductanceAtPeak(values, resonance.value, load.value);
  if (henry === undefined) {
    const all = amount(values.farad + load.value, 'farad');
    const why = `with ${amount(values.ohm, 'ohm')}, ${all} in all and these losses no inductance puts the peak there`;
    reader.reject('resonance', resonance, `can’t be ${amount(resonance.value, 'hertz')}: ${why}`);
    return failed;
  }
  if (contradicts(reader, stated, { values, hz: resonance.value, load: load.value })) return failed;
  const { resistance, capacitance, loss, eddyResistance } = winding;
  const known = [resonance, load, resistance, capacitance, loss, eddyResistance].every((one) => one?.known !== false);
  const found: Quantity = {
    ...stated,
    value: henry,
    known,
    ...(resonance.range === undefined ? {} : { range: resonance.range }),
  };
  setProperty(reader, found);
  return found;
}

function valuesOf({ resistance, capacitance, loss, eddyInductance, eddyResistance, ...rest }: Winding): WindingValues {
  return {
    ohm: resistance.value,
    farad: capacitance.value,
    loss: loss?.value ?? Infinity,
    eddy:
      eddyInductance === undefined || eddyResistance === undefined
        ? undefined
        : { share: eddyInductance, ohm: eddyResistance.value },
    exponent: rest.lossExponent,
    shading: rest.coverShading ?? 0,
  };
}

function askForLoad(reader: ElementReader, resonance: Quantity): void {
  const { range } = resonance;
  const end = range === undefined ? undefined : { ...range, start: range.end };
  const offer = (load: string, title: string) =>
    end === undefined ? [] : [replaceWith(end, `, resonance-load ${load}`, { title: `add resonance-load ${load}, ${title}` })];
  reader.reject(
    'resonance',
    resonance,
    'needs resonance-load, the capacitance that was across the pickup when the peak was measured: cable, meter and a capacitor, if there was one',
    [...offer('500pF', 'a usual cable'), ...offer('0pF', 'nothing but the winding itself')],
  );
}

/** True, and reported, where an inductance that is written beside the resonance puts the peak elsewhere. */
function contradicts(
  reader: ElementReader,
  { range, value, rejected }: Quantity,
  { values, hz, load }: { readonly values: WindingValues; readonly hz: number; readonly load: number },
): boolean {
  if (range === undefined || rejected === true) return false;
  const peak = peakWith(values, value, load);
  if (peak !== undefined && Math.abs(Math.log(peak / hz)) <= mostApart) return false;
  const there = peak === undefined ? 'there is no peak' : `the peak is at ${amount(peak, 'hertz')}`;
  const why = `with ${amount(value, 'henry')} ${there}, not at ${amount(hz, 'hertz')}`;
  reader.reject('inductance', { range }, `doesn’t fit its resonance: ${why}. Leave out one of the two`);
  return true;
}

/** What shows the part's values shows the inductance that was found, not the type's default. */
function setProperty(reader: ElementReader, found: Quantity): void {
  const source = reader.definition.properties.get('inductance');
  const { part } = reader.instance;
  if (source?.kind !== 'parameter') return;
  part.properties = { ...part.properties, [source.name]: found };
}
