/** Ranges outside of which a value is more likely a slip of the pen than a part. */
import { figure, type Figure } from '../../claim.js';
import { amount } from '../../circuit/index.js';
import type { Part, Quantity } from '../../circuit/model.js';
import type { SourceRange, Statement } from '../../source.js';

export interface Range {
  readonly low: number;
  readonly high: number;
}

/** Of one kind of part, by property. */
type Limits = Readonly<Record<string, Range>>;

const range = (low: number, high: number): Range => ({ low, high });

const control: Limits = {
  resistance: range(1e3, 10e6),
  'resistance-b': range(1e3, 10e6),
};

/** By type, then by property. Wide on purpose, from common practice: trade values off the preferred series (250k, 0.02 µF) are as good as any. */
const parts: Readonly<Record<string, Limits>> = {
  control,
  resistor: { resistance: range(0.1, 100e6) },
  capacitor: { capacitance: range(1e-12, 10e-6) },
  electrolytic: { capacitance: range(10e-9, 10e-3) },
  inductor: { inductance: range(10e-6, 100) },
};

/** Of whole pickups: most have 1 to 10 H and 80 to 200 pF (H. Lemme, 2003/2009); the limits are wider, and low-impedance ones lie below. */
const pickup: Limits = {
  resistance: range(1e3, 50e3),
  inductance: range(0.1, 30),
  capacitance: range(5e-12, 2e-9),
};

export interface Implausible {
  readonly property: string;
  readonly quantity: Quantity;
  readonly usual: Range;
  /** Where the value stands. */
  readonly range: SourceRange;
}

/** A value outside its usual range, as a finding claims it. */
export interface ValueClaim extends Statement {
  readonly subjects: { readonly part: string; readonly property: string };
  readonly figures: { readonly value: Figure; readonly low: Figure; readonly high: Figure };
}

export function valueClaim(
  { name }: Part,
  { property, quantity, usual }: Pick<Implausible, 'property' | 'quantity' | 'usual'>,
): ValueClaim {
  const unit = unitOf(property);
  return {
    subjects: { part: name, property },
    figures: { value: figure(quantity.value, unit), low: figure(usual.low, unit), high: figure(usual.high, unit) },
  };
}

/** `The resistance of volume is outside the usual range of 1 kΩ to 10 MΩ`. */
export function describeValue({ subjects: { part, property }, figures: { low, high } }: ValueClaim): string {
  const unit = unitOf(property);
  return `The ${property} of ${part} is outside the usual range of ${amount(low.value, unit)} to ${amount(high.value, unit)}`;
}

function unitOf(property: string): 'ohm' | 'farad' | 'henry' {
  return property === 'capacitance' ? 'farad' : property === 'inductance' ? 'henry' : 'ohm';
}

/** Values of a part that were written, are known, and lie outside the range of their kind. A resistor of nothing is a link, and right. */
export function implausibleValues(part: Part): readonly Implausible[] {
  const kind = part.family === 'pickup' ? pickup : part.family === 'control' ? control : limitsOf(part);
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
    return quantity.value < usual.low || quantity.value > usual.high
      ? [{ property, quantity, usual, range: quantity.range }]
      : [];
  });
}

function limitsOf(part: Part): Limits {
  return part.ancestry.map((type) => parts[type]).find((limits) => limits !== undefined) ?? {};
}
