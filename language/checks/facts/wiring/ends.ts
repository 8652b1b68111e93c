/** Where elements end, as lists of numbers: rules count and follow them in every setting. */
import { type AnalysedCircuit, derivation, derive, type Element, type LugId } from '../../../circuit/model.js';
import type { Nets } from '../../../electrics/index.js';

/** Every lug at which an element ends. */
export function endsOf(element: Element): readonly LugId[] {
  switch (element.kind) {
    case 'track':
      return element.leavesTo === undefined
        ? [element.a, element.wiper, element.b]
        : [element.a, element.wiper, element.leavesTo];
    case 'gain':
      return [element.a, element.b, element.plus, element.minus, ...(element.inverting === undefined ? [] : [element.inverting])];
    default:
      return [element.a, element.b];
  }
}

/** The lugs at which each element ends: those of an element, by id, are `lugs` from its `first` up to that of the next. */
export interface ElementEnds {
  readonly first: Int32Array;
  readonly lugs: Int32Array;
}

export function elementEnds(circuit: AnalysedCircuit): ElementEnds {
  return derive(circuit, ends);
}

const ends = derivation(['elements'], ({ elements }): ElementEnds => listEnds(elements, endsOf));

/** The same of the lugs that `lugsOf` counts as ends. */
export function listEnds(elements: readonly Element[], lugsOf: (element: Element) => readonly LugId[]): ElementEnds {
  const first = new Int32Array(elements.length + 1);
  const lugs: LugId[] = [];
  for (const [index, element] of elements.entries()) {
    lugs.push(...lugsOf(element));
    first[index + 1] = lugs.length;
  }
  return { first, lugs: Int32Array.from(lugs) };
}

/** How many of these ends lie on each net. */
export function countEnds({ of, count }: Nets, { lugs }: ElementEnds): Int32Array {
  const found = new Int32Array(count);
  for (const lug of lugs) {
    const net = of[lug] ?? -1;
    found[net] = (found[net] ?? 0) + 1;
  }
  return found;
}
