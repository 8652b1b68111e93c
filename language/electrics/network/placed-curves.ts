/** Curves with their places in the equations: which admittance lies between which unknowns, and where the EMF of each coil acts. */
import type { Circuit } from '../../circuit/model.js';
import type { Admittance } from '../../numerics/index.js';
import type { Branch } from './branches.js';
import { type Curve, pairCurve, pairRows, shadedCurve, type Winding, windingCurve } from './curves.js';

/** A coil whose EMF drives this admittance between two unknowns; −1 is the reference. One of a lossy pair drives one in the other coil as well. */
export interface CoilSource {
  /** Element id. */
  readonly coil: number;
  readonly admittance: number;
  readonly from: number;
  readonly to: number;
}

/** The unknowns at the ends of a winding, start and finish. */
export type Ends = readonly [from: number, to: number];

export interface PlacedWinding {
  readonly branch: Branch;
  readonly ends: Ends;
}

export interface PlacedCurves {
  readonly admittances: readonly Admittance[];
  readonly curves: readonly Curve[];
  readonly sources: readonly CoilSource[];
  /** A resistance and a capacitance in a row. */
  capacitive(ends: Ends, ohm: number, elastance: number): void;
  /** A winding or a piezo element by itself. */
  winding(winding: PlacedWinding): void;
  /** Two windings that share a field; `factor` as in `Pair`. */
  pair(one: PlacedWinding, other: PlacedWinding, factor: number): void;
}

export function createPlacedCurves(circuit: Circuit): PlacedCurves {
  const admittances: Admittance[] = [];
  const curves: Curve[] = [];
  const sources: CoilSource[] = [];
  const add = (curve: Curve, places: readonly Ends[]): number => {
    const index = admittances.length;
    curves.push(curve);
    for (const [from, to] of places) admittances.push(from === to ? nowhere : { from, to });
    return index;
  };
  const addSource = ({ element, sections }: Branch, admittance: number, [from, to]: Ends): void => {
    if (from === to || circuit.elements[element]?.kind !== 'coil') return;
    const driven = sections.length === 0 ? admittance : add(shadedCurve(admittance, sections), [noEnds]);
    sources.push({ coil: element, admittance: driven, from, to });
  };
  return {
    admittances,
    curves,
    sources,
    capacitive: (ends, ohm, elastance) => void add(windingCurve({ ...capacitive, ohm, elastance }), [ends]),
    winding: ({ branch, ends }) => addSource(branch, add(windingCurve(windingOf(branch)), [ends]), ends),
    pair(one, other, factor) {
      const [[a, b], [c, d]] = [one.ends, other.ends];
      // A volt from a to b drives a current from c to d: the admittance between two ports is four between their ends.
      const crossed: readonly Ends[] = [
        [b, c],
        [a, d],
        [a, c],
        [b, d],
      ];
      const isFelt = a !== b && c !== d;
      const curve = pairCurve({ first: windingOf(one.branch), second: windingOf(other.branch), factor });
      const index = add(curve, [one.ends, other.ends, ...crossed.map((ends) => (isFelt ? ends : noEnds))]);
      const [mutual] = pairRows.mutual;
      addSource(one.branch, index + pairRows.first, one.ends);
      addSource(one.branch, index + mutual, other.ends);
      addSource(other.branch, index + pairRows.second, other.ends);
      addSource(other.branch, index + mutual, one.ends);
    },
  };
}

const noEnds: Ends = [-1, -1];
const nowhere: Admittance = { from: -1, to: -1 };
const capacitive = { henry: 0, core: [], loss: Infinity } as const;

function windingOf({ ohm, henry, core, loss, farad }: Branch): Winding {
  return farad > 0 ? { ...capacitive, ohm, elastance: 1 / farad } : { ohm, henry, core, loss, elastance: 0 };
}
