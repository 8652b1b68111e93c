/** What each branch writes into the matrix. */
import type { Circuit } from '../../circuit/model.js';
import type { Rows } from '../../numerics/index.js';
import type { Branch } from './branches.js';
import type { Pair } from './coupling.js';

/**
 * What stands in the matrix at every frequency, one entry an index: a real value (siemens or ohm), and one that is multiplied by jω
 * (farad or henry). Entries at the same place add up. Kept as columns of numbers, since a network is made anew for every setting.
 */
export interface Entries {
  readonly rows: readonly number[];
  readonly columns: readonly number[];
  readonly real: readonly number[];
  readonly slope: readonly number[];
}

/** A resistance in series with an inductance or a capacitance, whose admittance is stamped anew at each frequency; −1 is the reference. */
export interface Winding {
  readonly from: number;
  readonly to: number;
  readonly ohm: number;
  readonly henry: number;
  /** 1/C of a capacitance in series; 0 where there is none. */
  readonly elastance: number;
  readonly loss: number;
  /** The coil whose EMF it holds, by element id; −1 for a plain inductor. */
  readonly coil: number;
}

/** A coil that has a branch current of its own among the unknowns, because its impedance is nothing or is shared with another. */
export interface BranchCurrent {
  readonly unknown: number;
  readonly coil: number;
}

/** The matrix as it is built up, branch by branch. */
export function createStamps(circuit: Circuit, nodes: number, pairs: readonly Pair[]) {
  const entries = { rows: [] as number[], columns: [] as number[], real: [] as number[], slope: [] as number[] };
  const windings: Winding[] = [];
  const currents: BranchCurrent[] = [];
  let size = nodes;
  const add = (row: number, column: number, real: number, slope = 0): void => {
    if (row < 0 || column < 0) return;
    entries.rows.push(row);
    entries.columns.push(column);
    entries.real.push(real);
    entries.slope.push(slope);
  };
  const admittance = (a: number, b: number, siemens: number, farad: number): void => {
    add(a, a, siemens, farad);
    add(b, b, siemens, farad);
    add(a, b, -siemens, -farad);
    add(b, a, -siemens, -farad);
  };
  const current = (a: number, b: number): number => {
    const unknown = size++;
    add(a, unknown, 1);
    add(b, unknown, -1);
    add(unknown, a, 1);
    add(unknown, b, -1);
    return unknown;
  };
  /** Unknown current of each coil that has one. */
  const unknownOfCoil = new Map<number, number>();
  return {
    made: { entries, windings, currents },
    size: () => size,
    /** Resistance and capacitance in a row; `elastance` is 1/C, 0 without a capacitor. */
    passive(a: number, b: number, ohm: number, elastance: number): void {
      if (a === b) return;
      if (elastance === 0) admittance(a, b, 1 / ohm, 0);
      else if (ohm === 0) admittance(a, b, 0, 1 / elastance);
      else windings.push({ from: a, to: b, ohm, henry: 0, elastance, loss: Infinity, coil: -1 });
    },
    winding(branch: Branch, a: number, b: number): void {
      const coil = circuit.elements[branch.element]?.kind === 'coil' ? branch.element : -1;
      const isPaired = pairs.some(({ first, second }) => first.id === coil || second.id === coil);
      if (!isPaired && a === b) return;
      if (!isPaired && (branch.ohm > 0 || branch.henry > 0)) {
        windings.push({ from: a, to: b, ohm: branch.ohm, henry: branch.henry, elastance: 0, loss: branch.loss, coil });
        return;
      }
      // The loss lies across the inductance alone, so a coupled winding with one needs the node between the two.
      const inner = isPaired && branch.loss !== Infinity ? size++ : b;
      if (inner !== b) {
        const resistance = current(a, inner);
        currents.push({ unknown: resistance, coil });
        add(resistance, resistance, -branch.ohm);
        admittance(inner, b, 1 / branch.loss, 0);
        const inductance = current(inner, b);
        add(inductance, inductance, 0, -branch.henry);
        unknownOfCoil.set(coil, inductance);
        return;
      }
      const unknown = current(a, b);
      currents.push({ unknown, coil });
      add(unknown, unknown, -branch.ohm, -branch.henry);
      unknownOfCoil.set(coil, unknown);
    },
    couple(): void {
      for (const { first, second, factor } of pairs) {
        const one = unknownOfCoil.get(first.id);
        const other = unknownOfCoil.get(second.id);
        if (one === undefined || other === undefined) continue;
        const mutual = factor * Math.sqrt(Math.max(first.inductance.value * second.inductance.value, 0));
        add(one, other, 0, -mutual);
        add(other, one, 0, -mutual);
      }
    },
    /** Transposed, as the whole system is: the controlling nodes stand in the rows. */
    stage(input: number, output: number, minus: number, gain: number, ohm: number): void {
      if (ohm > 0) {
        const siemens = 1 / ohm;
        admittance(output, minus, siemens, 0);
        add(input, output, -gain * siemens);
        add(minus, output, gain * siemens);
        add(input, minus, gain * siemens);
        add(minus, minus, -gain * siemens);
        return;
      }
      const unknown = current(output, minus);
      add(input, unknown, -gain);
      add(minus, unknown, gain);
    },
  };
}

/**
 * Admittance of a resistance R in series with an inductance whose reactance X has the loss resistance P across it, written with g = 1/P
 * so that one division serves both with and without: y = (R + g·X²·(1 + g·R) − jX) / (R² + X²·(1 + g·R)²).
 */
export function windingAdmittance(winding: Winding, omega: Float64Array, y: Rows, at: number): void {
  if (winding.elastance > 0) capacitiveAdmittance(winding, omega, y, at);
  else inductiveAdmittance(winding, omega, y, at);
}

function inductiveAdmittance({ ohm, henry, loss }: Winding, omega: Float64Array, { re, im }: Rows, at: number): void {
  const g = 1 / loss;
  const lossy = 1 + g * ohm;
  const square = ohm * ohm;
  for (let f = 0; f < omega.length; f++) {
    const x = omega[f]! * henry;
    const y = x * lossy;
    const size = 1 / (square + y * y);
    re[at + f] = (ohm + g * x * y) * size;
    im[at + f] = -x * size;
  }
}

/** The same with a capacitance in series: y = jω / (S + jωR) with S = 1/C. */
function capacitiveAdmittance({ ohm, elastance }: Winding, omega: Float64Array, { re, im }: Rows, at: number): void {
  const square = elastance * elastance;
  for (let f = 0; f < omega.length; f++) {
    const w = omega[f]!;
    const r = w * ohm;
    const size = w / (square + r * r);
    re[at + f] = r * size;
    im[at + f] = elastance * size;
  }
}
