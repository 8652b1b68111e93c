/** The usual arrangements on the positions of the switch that chooses: one row for each way round, and the one that names and wiring speak for. */
import {
  elementById,
  partById,
  type Arrangement,
  type Circuit,
  type ElementId,
  type Part,
  type Switch,
} from '../../circuit/model.js';
import { orders, parallel, patterns, pickupsNamed, tokensOf } from '../../roles/index.js';

/** What one position gives. */
export type Usually = Arrangement;

type Row = readonly Usually[];

/** Whether a position gives this now; undefined where nothing sounds there. */
export type SoundsNow = (position: number, usually: Usually) => boolean | undefined;

/**
 * The row that fits: none that a position's name contradicts, then the one that most positions give now, then the pickups as they are declared. Where
 * names do not decide, at least half of the positions that sound must give it.
 */
export function usualRow(circuit: Circuit, device: Switch, pickups: readonly Part[], soundsNow: SoundsNow): Row | undefined {
  const named = device.positions.map(({ key, label }) => meaningOf(label === key ? '' : label, pickups));
  const fitting = rowsFor(circuit, device, pickups).filter((row) =>
    row.every((usually, at) => named[at]?.isMet(partsIn(circuit, usually), usually) ?? true),
  );
  const scored = fitting.map((row) => {
    const now = row.map((usually, at) => soundsNow(at, usually)).filter((is) => is !== undefined);
    return { row, agreeing: now.filter(Boolean).length, sounding: now.length };
  });
  const [best] = scored.sort((a, b) => b.agreeing - a.agreeing);
  if (best === undefined) return undefined;
  const isDecided = named.filter(({ says }) => says).length >= Math.max(2, pickups.length);
  // Where nothing sounds, only a switch that is made for it tells what is usual.
  const isMade = best.sounding > 0 || partById(circuit, device.part).ancestry.some((type) => /^(lever|toggle)-/.test(type));
  return isDecided || (isMade && 2 * best.agreeing >= best.sounding) ? best.row : undefined;
}

interface Meaning {
  /** False where the name says nothing of what is heard. */
  readonly says: boolean;
  isMet(parts: ReadonlySet<Part['id']>, usually: Usually): boolean;
}

function meaningOf(label: string, pickups: readonly Part[]): Meaning {
  const named = pickupsNamed(label, pickups);
  const words = tokensOf(label);
  const joined = (['series', 'parallel'] as const).find((word) => words.includes(word));
  const isOneCoil = words.some((word) => ['split', 'single', 'coil', 'north', 'south', 'screw', 'slug'].includes(word));
  return {
    says: named.pickups.length > 0 || joined !== undefined || isOneCoil,
    isMet(parts, usually) {
      if (
        !named.pickups.every(({ id }) => parts.has(id)) ||
        (named.isAll && named.pickups.length > 0 && parts.size > named.pickups.length)
      )
        return false;
      if (isOneCoil && pickups.length === 1) return usually.kind === 'coil';
      // The coils of a pickup are in series where it is whole.
      if (joined === 'series') return usually.kind === 'series' || (pickups.length === 1 && usually.kind === 'pickup');
      return joined === undefined || usually.kind === joined;
    },
  };
}

/** All rows of the length, likelier ones first. */
function rowsFor(circuit: Circuit, { positions: { length } }: Switch, pickups: readonly Part[]): readonly Row[] {
  const [only, ...others] = pickups;
  if (only === undefined) return [];
  if (others.length === 0) return rowsOfCoils(circuit, only, length);
  const rows = orders(pickups.map(({ name }) => name)).flatMap((order) => {
    const [a, b] = order;
    const both = length === 2 && order.length === 2 ? [[parallel(...order), `series(${a}, ${b})`]] : [];
    return [...patterns.flatMap(({ name, arrange }) => rowOf(name, arrange(order, length))), ...both];
  });
  const texts = [...rows, ...rows.map((row) => [...row].reverse())];
  return texts.map((row) => row.map((text) => arrangementOf(pickups, text)));
}

/** A pattern of whole pickups; between neighbours they may be in series as well. */
function rowOf(name: string, row: readonly string[] | undefined): readonly (readonly string[])[] {
  if (row === undefined || name === 'coils' || name === 'split') return [];
  return name === 'neighbours' ? [row, row.map((text) => text.replace('parallel(', 'series('))] : [row];
}

/** One pickup with two coils: whole, one coil, both in parallel; on two positions the first and the last. */
function rowsOfCoils(circuit: Circuit, { id, elements }: Part, positions: number): readonly Row[] {
  const [north, south] = coilsOf(circuit, elements);
  if (north === undefined || south === undefined || positions < 2 || positions > 3) return [];
  const whole: Usually = { kind: 'pickup', part: id, reversed: false };
  const one = (coil: ElementId): Usually => ({ kind: 'coil', coil, reversed: false });
  const beside: Usually = { kind: 'parallel', members: [one(north), one(south)], reversed: false };
  if (positions === 2)
    return [
      [whole, beside],
      [beside, whole],
    ];
  return [north, south].flatMap((coil) => {
    const single = one(coil);
    return [
      [whole, single, beside],
      [beside, single, whole],
      [whole, beside, single],
      [single, beside, whole],
      [single, whole, beside],
      [beside, whole, single],
    ];
  });
}

/** North and south coil of a pickup that has these two. */
export function coilsOf(circuit: Circuit, elements: Part['elements']): readonly ElementId[] {
  const coils = elements.map((id) => elementById(circuit, id)).flatMap((element) => (element.kind === 'coil' ? [element] : []));
  const found = ['north', 'south'].flatMap((name) => coils.filter((coil) => coil.name === name).map(({ id }) => id));
  return found.length === 2 && coils.length === 2 ? found : [];
}

/** `a` or `parallel(a, b)` as data. */
function arrangementOf(pickups: readonly Part[], text: string): Usually {
  const members = pickups
    .map(({ id, name }) => ({ id, at: text.split(/[(), ]+/).indexOf(name) }))
    .filter(({ at }) => at >= 0)
    .sort((a, b) => a.at - b.at)
    .map(({ id }): Usually => ({ kind: 'pickup', part: id, reversed: false }));
  const [only] = members;
  if (members.length === 1 && only !== undefined) return only;
  return { kind: text.startsWith('series') ? 'series' : 'parallel', members, reversed: false };
}

/** The pickups in an arrangement. */
function partsIn(circuit: Circuit, usually: Usually): ReadonlySet<Part['id']> {
  if (usually.kind === 'pickup') return new Set([usually.part]);
  if (usually.kind === 'coil') return new Set([elementById(circuit, usually.coil).part]);
  return new Set(usually.members.flatMap((member) => [...partsIn(circuit, member)]));
}
