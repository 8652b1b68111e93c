/** Values as they stand on a drawing: three figures, the unit's letter, a space between. */
import { firstOf } from '../../collections.js';
import { amount } from '../../circuit/index.js';
import { elementById, type Circuit, type Coil, type Element, type Part, type Quantity } from '../../circuit/model.js';

/** `250 kΩ`, `22 nF`, `2.4 H`; `?` where the value is not known yet. */
export function quantityText(quantity: Quantity): string {
  return quantity.known ? amount(quantity.value, quantity.unit) : '?';
}

/** What stands under a part's name: its values, else its type. */
export function partValues(circuit: Circuit, part: Part): string[] {
  const elements = part.elements.map((id) => elementById(circuit, id));
  if (elements.length > 0 && elements.every((element) => element.kind === 'coil')) return coilValues(elements);
  const [first, second] = elements;
  if (part.untyped) return [part.type];
  if (first === undefined) return part.type === part.name || part.family === 'metal' || part.type === 'jack' ? [] : [part.type];
  if (first.kind === 'track') return trackValues(first, second, part);
  if (first.kind === 'gain' || part.lugs.length > 2 || (first.kind === 'diode' && first.breakdown === undefined))
    return [part.type];
  return [elementText(first)];
}

function trackValues(first: Element & { kind: 'track' }, second: Element | undefined, part: Part): string[] {
  const resistance = quantityText(first.resistance);
  const own = `${resistance} ${first.taper}`;
  if (second?.kind === 'track') {
    const other = `${quantityText(second.resistance)} ${second.taper}`;
    return other === own ? [`2 × ${resistance}`, first.taper] : [`a ${own}`, `b ${other}`];
  }
  return [resistance, part.ancestry.includes('pot-no-load') ? `${first.taper}, no load` : first.taper];
}

/** One pickup's coils in series, in phase, as its stamp gives them: with the coupling of a pair, L1 + L2 + 2 k √(L1 L2). */
function coilValues(coils: readonly Coil[]): string[] {
  if (coils.some(({ piezo }) => piezo === true)) return coils.map(({ capacitance }) => quantityText(capacitance));
  const sum = (of: (coil: Coil) => Quantity): Quantity => ({
    ...of(firstOf(coils)),
    value: coils.reduce((total, coil) => total + of(coil).value, 0),
    known: coils.every((coil) => of(coil).known),
  });
  const apart = sum((coil) => coil.inductance);
  const [first, second] = coils;
  const mutual =
    first === undefined || second === undefined
      ? 0
      : 2 * (first.coupling ?? 0) * Math.sqrt(first.inductance.value * second.inductance.value);
  return [`${quantityText(sum((coil) => coil.resistance))}  ${quantityText({ ...apart, value: apart.value + mutual })}`];
}

function elementText(element: Element): string {
  switch (element.kind) {
    case 'capacitor':
      return quantityText(element.capacitance);
    case 'inductor':
      return quantityText(element.inductance);
    case 'battery':
      return quantityText(element.voltage);
    case 'diode':
      return quantityText(element.breakdown ?? element.forward);
    case 'resistor':
    case 'coil':
    case 'track':
      return quantityText(element.resistance);
    case 'gain':
      return '';
  }
}
