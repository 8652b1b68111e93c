/** Families of arrangement, as instruments have them, seen from behind: data only. Common practice. */
import { lastOf } from '../../collections.js';
import type { Station } from './stations.js';

/** Stations of one row from left to right, each with all its parts. */
export interface FamilyRow {
  readonly stations: readonly Station[];
  /** Quarter turns of the parts in it: at two the lugs of a pot point up. */
  readonly turn?: 0 | 2;
  /** Its parts stand below each other. */
  readonly isStacked?: true;
}

export interface Family {
  readonly id: string;
  /** How many parts of a station it is for, at least and at most; any number where nothing is said. */
  readonly for: Readonly<Partial<Record<Station, readonly [least: number, most: number]>>>;
  /** Columns from left to right, rows in a column from above. Each station has one place. */
  readonly columns: readonly (readonly FamilyRow[])[];
}

const any = Infinity;
const row = (...stations: Station[]): FamilyRow => ({ stations });
const turned = (...stations: Station[]): FamilyRow => ({ stations, turn: 2 });

const pickups = [row('pickup', 'strings')];
const output: readonly FamilyRow[] = [{ stations: ['jack'], isStacked: true }];
/** What hangs below the controls of any instrument that has it. */
const below = [row('stage', 'battery', 'ground'), row('small'), row('other')];

/** The first that fits is taken; the last one always does. */
export const families: readonly Family[] = [
  {
    id: 'four controls and a toggle',
    for: { volume: [2, any], tone: [2, any], selector: [0, 0] },
    columns: [
      [row('toggle'), ...pickups],
      [row('group'), row('volume', 'blend'), turned('tone'), row('knob', 'switch', 'slide', 'selector'), ...below],
      output,
    ],
  },
  {
    id: 'row of slides',
    for: { slide: [2, any], selector: [0, 0] },
    columns: [
      pickups,
      [row('group'), row('slide', 'switch', 'toggle', 'selector'), row('volume', 'blend', 'tone', 'knob'), ...below],
      output,
    ],
  },
  {
    id: 'bass row',
    for: { selector: [0, 0], toggle: [0, 0] },
    columns: [
      pickups,
      [row('group'), row('volume', 'blend', 'tone', 'knob'), row('slide', 'switch', 'toggle', 'selector'), ...below],
      output,
    ],
  },
  {
    id: 'one plate',
    for: {},
    columns: [
      pickups,
      [row('selector', 'toggle')],
      [row('group'), row('volume', 'blend'), row('tone', 'knob'), row('slide', 'switch'), ...below],
      output,
    ],
  },
];

/** The family for a set of stations, one for each part. */
export function familyOf(stations: readonly Station[]): Family {
  const count = (station: Station): number => stations.filter((other) => other === station).length;
  const fits = ({ for: bounds }: Family): boolean =>
    Object.entries(bounds).every(([station, [least, most]]) => {
      const number = count(station as Station);
      return number >= least && number <= most;
    });
  return families.find(fits) ?? lastOf(families);
}

/** Quarter turns of the parts of a station. */
export function turnOf(family: Family, station: Station): 0 | 2 {
  return family.columns.flat().find(({ stations }) => stations.includes(station))?.turn ?? 0;
}
