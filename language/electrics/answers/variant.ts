/** The same circuit with one element's value changed: what a part does is seen by taking it away. */
import type { Circuit, Element, ElementId, Quantity } from '../../circuit/model.js';

/** The circuit with one element replaced by `change` of it. */
export function withElement(circuit: Circuit, id: ElementId, change: (element: Element) => Element): Circuit {
  return { ...circuit, elements: circuit.elements.map((element) => (element.id === id ? change(element) : element)) };
}

/** A quantity with another value. */
export function withValue(quantity: Quantity, value: number): Quantity {
  return { ...quantity, value };
}
