/** One list of what to order for the whole batch: parts with spares, wire by the metre, heat-shrink by its size. */
import { millimetres } from '../../checks/index.js';
import type { Build } from '../build.js';
import { cutList, partsList, sleeveList } from './lists.js';
import { roundedUp } from '../places/runs.js';

export interface BuyRow {
  /** Pieces, or metres of wire and tube; metres in whole decimetres, rounded up. */
  readonly quantity: number;
  readonly unit: 'piece' | 'metre';
  readonly item: string;
  readonly values: string;
  /** Names of parts, marks of wires. */
  readonly usedAs: readonly string[];
  /** What the figure leaves out. */
  readonly note: string;
}

/** A decimetre: what wire and tube are rounded up to. */
const STEP = 0.1;

export function buyList(build: Build): readonly BuyRow[] {
  const parts = partsList(build).map(({ quantity, type, values, names }): BuyRow => ({
    quantity,
    unit: 'piece',
    item: type,
    values,
    usedAs: names,
    note: '',
  }));
  const wires = cutList(build).map(({ kind, cuts, total, unmeasured }): BuyRow => ({
    quantity: roundedUp(total, STEP),
    unit: 'metre',
    item: 'wire',
    values: kind,
    usedAs: cuts.map(({ mark }) => mark),
    note: unmeasured === 0 ? '' : `and ${unmeasured} ${unmeasured === 1 ? 'piece' : 'pieces'} to measure in place`,
  }));
  const tubes = sleeveList(build).map(({ pieces, length, over, why }): BuyRow => ({
    quantity: roundedUp(pieces * length, STEP),
    unit: 'metre',
    item: 'heat-shrink',
    values: `fits over ${millimetres(over)}, ${why}`,
    usedAs: [`${pieces} pieces of ${millimetres(length)}`],
    note: '',
  }));
  return [...parts, ...wires, ...tubes];
}

/** How many instruments the list is for, told in words where it is more than one. */
export function countSaid({ count }: Build): string {
  return count > 1 ? `for ${count} instruments` : '';
}
