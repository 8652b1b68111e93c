/** Ids of a circuit's items, a type for each kind, and the way from an id to its item. */

declare const id: unique symbol;

/** An id is the item's position in `Circuit.parts`, `.lugs`, `.elements`, `.switches` or `.shafts`. */
export type PartId = number & { readonly [id]: 'part' };
export type LugId = number & { readonly [id]: 'lug' };
export type ElementId = number & { readonly [id]: 'element' };
export type SwitchId = number & { readonly [id]: 'switch' };
export type ShaftId = number & { readonly [id]: 'shaft' };

/** Ids for items that are being made, from their position in the circuit; whatever reads a circuit takes the ids that its items carry. */
export const partId = (index: number): PartId => index as PartId;
export const lugId = (index: number): LugId => index as LugId;
export const elementId = (index: number): ElementId => index as ElementId;
export const switchId = (index: number): SwitchId => index as SwitchId;
export const shaftId = (index: number): ShaftId => index as ShaftId;

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

/** What the text calls a lug: `volume.3`, or the part's name alone where it has one lug. */
export function lugLabel(circuit: { readonly lugs: readonly { readonly label: string }[] }, lug: LugId): string {
  return lugById(circuit, lug).label;
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
