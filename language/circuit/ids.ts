/** Ids of a circuit's items, a type for each kind, and the way from an id to its item. */

/** An id is the item's position in `Circuit.parts`, `.lugs`, `.elements`, `.switches` or `.shafts`. */
export type PartId = number;
export type LugId = number;
export type ElementId = number;
export type SwitchId = number;
export type ShaftId = number;

/** The part with this id. An id of another circuit is a bug, and throws. */
export function partById<T>(circuit: { readonly parts: readonly T[] }, part: PartId): T {
  return circuit.parts[part] ?? missing('part', part);
}

/** The lug with this id. */
export function lugById<T>(circuit: { readonly lugs: readonly T[] }, lug: LugId): T {
  return circuit.lugs[lug] ?? missing('lug', lug);
}

/** The element with this id. */
export function elementById<T>(circuit: { readonly elements: readonly T[] }, element: ElementId): T {
  return circuit.elements[element] ?? missing('element', element);
}

/** The switch with this id. */
export function switchById<T>(circuit: { readonly switches: readonly T[] }, device: SwitchId): T {
  return circuit.switches[device] ?? missing('switch', device);
}

/** The shaft with this id. */
export function shaftById<T>(circuit: { readonly shafts: readonly T[] }, shaft: ShaftId): T {
  return circuit.shafts[shaft] ?? missing('shaft', shaft);
}

/** The part that a lug is on. */
export function partOfLug<T>(
  circuit: { readonly parts: readonly T[]; readonly lugs: readonly { readonly part: PartId }[] },
  lug: LugId,
): T {
  return partById(circuit, lugById(circuit, lug).part);
}

/** The part that an element is in. */
export function partOfElement<T>(
  circuit: { readonly parts: readonly T[]; readonly elements: readonly { readonly part: PartId }[] },
  element: ElementId,
): T {
  return partById(circuit, elementById(circuit, element).part);
}

function missing(kind: string, number: number): never {
  throw new Error(`This circuit has no ${kind} with the id ${number}`);
}
