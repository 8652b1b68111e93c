/** What a switch changes besides the choice of pickups: its positions compared with the first, as a listener would. */
import type { AnalysedCircuit, Switch } from '../../circuit/model.js';
import { firstOf, groupBy, itemAt } from '../../collections.js';
import { heardAt, levelAt, outputLabel, outputsOf, type PositionRow } from '../../electrics/index.js';

const BANDS = ['bass', 'mids', 'treble'] as const;
type Band = (typeof BANDS)[number];

/** What a switch may change, in the order in which it is named. */
export const SOUNDS = [...BANDS, 'loudness'] as const;

/** One thing that is heard to change. */
export interface ToneChange {
  readonly what: (typeof SOUNDS)[number];
  readonly isMore: boolean;
}

/** With more different settings than this, nothing is said of the tone. */
const MOST_COMPARED = 256;

/** True where another position of the switch, with all others left alone, lets other pickups be heard, or joins them in another way. */
export function choosesSound(rows: readonly PositionRow[], device: Switch): boolean {
  return pairsOf(rows, device).some(([one, other]) => one.sound.text !== other.sound.text);
}

/** For each position what is heard to differ from the first one, in any setting of the other switches, pots at rest; absent where there are too many settings. */
export function toneChanges(
  circuit: AnalysedCircuit,
  rows: readonly PositionRow[],
  device: Switch,
): readonly (readonly ToneChange[])[] | undefined {
  if (new Set(rows.map(({ group }) => group)).size > MOST_COMPARED) return undefined;
  const levels = levelsOfRows(circuit);
  const pairs = pairsOf(rows, device);
  return device.positions.map((_, position) => {
    const changes = pairs
      .filter(([, { setting }]) => setting.positions[device.id] === position)
      .flatMap(([first, other]) => changesBetween(levels(first), levels(other)));
    return [...new Map(changes.map((change) => [`${change.what} ${String(change.isMore)}`, change])).values()];
  });
}

/** Rows that differ in this switch alone, each beside the one with its first position. */
function pairsOf(rows: readonly PositionRow[], { id }: Switch): readonly (readonly [PositionRow, PositionRow])[] {
  const groups = groupBy(
    rows,
    ({ output, setting }) => `${output} ${setting.positions.filter((_, index) => index !== id).join()}`,
  );
  return [...groups.values()].flatMap((alike) => {
    const inOrder = [...alike].sort((a, b) => (a.setting.positions[id] ?? 0) - (b.setting.positions[id] ?? 0));
    return inOrder.slice(1).map((row) => [firstOf(inOrder), row] as const);
  });
}

/** Hertz: from the low strings of a bass to where a pickup's treble ends. */
const COMPARED_HZ: Readonly<Record<Band, readonly number[]>> = { bass: [50, 100], mids: [400], treble: [1500, 4000] };

type Levels = Readonly<Record<Band, readonly number[]>>;

/** Levels of a row's setting at its output in dB, each setting of equal nets solved once. */
function levelsOfRows(circuit: AnalysedCircuit): (row: PositionRow) => Levels {
  const heard = new Map(
    outputsOf(circuit).map(({ tip }) => {
      const there = heardAt(circuit, tip);
      return [outputLabel(there), there];
    }),
  );
  const known = new Map<number, Levels>();
  return ({ group, output, setting }) => {
    const there = heard.get(output) ?? circuit;
    const at = (band: Band): number[] => COMPARED_HZ[band].map((hz) => levelAt(there, setting, hz) ?? 0);
    const levels = known.get(group) ?? { bass: at('bass'), mids: at('mids'), treble: at('treble') };
    known.set(group, levels);
    return levels;
  };
}

/** About the least that is heard side by side, dB. */
const HEARD = 1;

/** By band; where all bands change alike, it is loudness. */
function changesBetween(one: Levels, other: Levels): readonly ToneChange[] {
  const change = (band: Band): number[] => other[band].map((db, index) => db - itemAt(one[band], index));
  const all = BANDS.flatMap(change);
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const isHeard = (db: number): boolean => Math.abs(db) >= HEARD;
  if (!all.some(isHeard)) return [];
  if (most - least < HEARD) return [{ what: 'loudness', isMore: least > 0 }];
  return BANDS.flatMap((what): ToneChange[] => {
    const largest = change(what).reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
    return isHeard(largest) ? [{ what, isMore: largest > 0 }] : [];
  });
}
