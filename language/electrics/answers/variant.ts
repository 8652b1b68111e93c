/** The same circuit with one element's value changed: what a part does is seen by taking it away. */
import { altered, type AnalysedCircuit, type Element, type ElementId, type Quantity } from '../../circuit/model.js';

/** The circuit with one element replaced by `change` of it. */
export function withElement(circuit: AnalysedCircuit, id: ElementId, change: (element: Element) => Element): AnalysedCircuit {
  return altered(circuit, { elements: circuit.elements.map((element) => (element.id === id ? change(element) : element)) });
}

/** A quantity with another value. */
export function withValue(quantity: Quantity, value: number): Quantity {
  return { ...quantity, value };
}
