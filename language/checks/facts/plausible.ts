/** Ranges outside of which a value is more likely a slip of the pen than a part. */
import type { Part, Quantity } from '../../circuit/model.js';

export interface Range {
  readonly low: number;
  readonly high: number;
  /** The range as it is said. */
  readonly said: string;
}

const range = (low: number, high: number, said: string): Range => ({ low, high, said });

/** By type, then by property. Wide on purpose, from common practice: trade values off the preferred series (250k, 0.02 µF) are as good as any. */
const parts: Readonly<Record<string, Readonly<Record<string, Range>>>> = {
  control: {
    resistance: range(1e3, 10e6, '1k to 10M'),
    'resistance-b': range(1e3, 10e6, '1k to 10M'),
  },
  resistor: { resistance: range(0.1, 100e6, '0.1R to 100M') },
  capacitor: { capacitance: range(1e-12, 10e-6, '1pF to 10uF') },
  electrolytic: { capacitance: range(10e-9, 10e-3, '10nF to 10,000uF') },
  inductor: { inductance: range(10e-6, 100, '10uH to 100H') },
};

/** Of whole pickups: most have 1 to 10 H and 80 to 200 pF (H. Lemme, 2003/2009); the limits are wider, and low-impedance ones lie below. */
const pickup: Readonly<Record<string, Range>> = {
  resistance: range(1e3, 50e3, '1k to 50k'),
  inductance: range(0.1, 30, '100mH to 30H'),
  capacitance: range(5e-12, 2e-9, '5pF to 2nF'),
};

export interface Implausible {
  readonly property: string;
  readonly quantity: Quantity;
  readonly usual: Range;
}

/** Values of a part that were written, are known, and lie outside the range of their kind. A resistor of nothing is a link, and right. */
export function implausibleValues(part: Part): readonly Implausible[] {
  const kind = part.family === 'pickup' ? pickup : part.family === 'control' ? parts.control! : limitsOf(part);
  return Object.entries(kind).flatMap(([property, usual]) => {
    const quantity = part.properties[property];
    if (
      quantity === undefined ||
      !('value' in quantity) ||
      !quantity.known ||
      quantity.range === undefined ||
      quantity.value === 0
    )
      return [];
    return quantity.value < usual.low || quantity.value > usual.high ? [{ property, quantity, usual }] : [];
  });
}

function limitsOf(part: Part): Readonly<Record<string, Range>> {
  return part.ancestry.map((type) => parts[type]).find((limits) => limits !== undefined) ?? {};
}
