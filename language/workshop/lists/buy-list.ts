/** One list of what to order for the whole batch: parts with spares, what they are mounted with, wire by the metre, heat-shrink by its size. */
import { millimetres } from '../../checks/index.js';
import type { Build } from '../build.js';
import { hardwareRows } from './hardware.js';
import { cutList, partsList, sleeveList, type BuyRow } from './lists.js';
import { roundedUp } from '../places/runs.js';

/** A decimetre: what wire and tube are rounded up to. */
const STEP = 0.1;

export function buyList(build: Build): readonly BuyRow[] {
  const parts = partsList(build).map(({ quantity, type, values, names }): BuyRow => ({
    quantity,
    unit: 'piece',
    item: type,
    values: type === 'star' ? ['solder lug or ring', values].filter((text) => text !== '').join(', ') : values,
    usedAs: names,
    note: '',
  }));
  const wires = cutList(build).map(({ kind, cuts, total, unmeasured }): BuyRow => ({
    // Where no piece has a length there is no figure, not 0.
    ...(total > 0 ? { quantity: roundedUp(total, STEP) } : {}),
    unit: 'metre',
    item: 'wire',
    values: kind,
    usedAs: cuts.map(({ mark }) => mark),
    note:
      unmeasured === 0
        ? ''
        : `${total > 0 ? 'and ' : ''}${unmeasured} ${unmeasured === 1 ? 'piece' : 'pieces'} to measure in place`,
  }));
  const tubes = sleeveList(build).map(({ pieces, length, over, why }): BuyRow => ({
    quantity: roundedUp(pieces * length, STEP),
    unit: 'metre',
    item: 'heat-shrink',
    values: `fits over ${millimetres(over)}, ${why}`,
    usedAs: [`${pieces} ${pieces === 1 ? 'piece' : 'pieces'} of ${millimetres(length)}`],
    note: '',
  }));
  return [...parts, ...hardwareRows(build), ...wires, ...tubes];
}

/** How many instruments the list is for, told in words where it is more than one. */
export function countSaid({ count }: Build): string {
  return count > 1 ? `for ${count} instruments` : '';
}
