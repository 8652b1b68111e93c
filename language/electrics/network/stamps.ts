/** What each branch writes into the matrix. */
import type { Circuit, ElementId } from '../../circuit/model.js';
import { type Admittance, createEntries, type Entries, type Rows } from '../../numerics/index.js';
import type { Branch } from './branches.js';
import type { Pair } from './coupling.js';
import type { Section } from './sections.js';

/** A resistance in series with an inductance or a capacitance, whose admittance is worked out anew at each frequency; −1 is the reference. */
export interface Winding extends Admittance {
  readonly ohm: number;
  readonly henry: number;
  /** 1/C of a capacitance in series; 0 where there is none. */
  readonly elastance: number;
  readonly loss: number;
  /** The coil whose EMF it holds, by element id; −1 for a plain inductor. */
  readonly coil: number;
}

/** A winding whose branch current is one of the unknowns, because its impedance is nothing or is shared with another; `coil` is −1 where no pickup's voltage is in it. */
export interface BranchCurrent {
  readonly unknown: number;
  readonly coil: number;
}

/** An amplifier stage by its unknowns: its amplification of `input` against `reference`, its output resistance in ohms, and what its bands do to the voltage. */
export interface StageStamp {
  readonly input: number;
  readonly reference: number;
  readonly output: number;
  readonly minus: number;
  readonly gain: number;
  readonly ohm: number;
  readonly sections: readonly Section[];
}

/** The matrix as it is built up, branch by branch. */
export interface Stamps {
  readonly entries: Entries;
  readonly windings: readonly Winding[];
  readonly currents: readonly BranchCurrent[];
  /** Unknowns so far: the nodes, and the currents that were added. */
  size(): number;
  /** Resistance and capacitance in a row; `elastance` is 1/C, 0 without a capacitor. */
  passive(a: number, b: number, ohm: number, elastance: number): void;
  winding(branch: Branch, a: number, b: number): void;
  couple(): void;
  /** Transposed, as the whole system is: the controlling nodes are in the rows. */
  stage(stage: StageStamp): void;
}

export function createStamps(circuit: Circuit, nodes: number, pairs: readonly Pair[]): Stamps {
  const entries = createEntries();
  const windings: Winding[] = [];
  const currents: BranchCurrent[] = [];
  let size = nodes;
  const addCurrent = (a: number, b: number): number => stampCurrent(entries, size++, a, b);
  /** Unknown current of each coupled winding. */
  const unknownOfWinding = new Map<number, number>();
  return {
    entries,
    windings,
    currents,
    size: () => size,
    passive(a, b, ohm, elastance) {
      if (a === b) return;
      if (elastance === 0) stampAdmittance(entries, a, b, 1 / ohm, 0);
      else if (ohm === 0) stampAdmittance(entries, a, b, 0, 1 / elastance);
      else windings.push({ from: a, to: b, ohm, henry: 0, elastance, loss: Infinity, coil: -1 });
    },
    winding(branch, a, b) {
      const { ohm, henry, loss, farad } = branch;
      const coil = isCoil(circuit, branch.element) ? branch.element : -1;
      const { element } = branch;
      const isPaired = pairs.some(({ first, second }) => first.id === element || second.id === element);
      if (!isPaired && a === b) return;
      if (farad > 0) {
        windings.push({ from: a, to: b, ohm, henry: 0, elastance: 1 / farad, loss: Infinity, coil });
        return;
      }
      if (!isPaired && (ohm > 0 || henry > 0)) {
        windings.push({ from: a, to: b, ohm, henry, elastance: 0, loss, coil });
        return;
      }
      // The loss lies across the inductance alone, so a coupled winding with one needs the node between the two.
      const inner = isPaired && loss !== Infinity ? size++ : b;
      const resistance = addCurrent(a, inner);
      currents.push({ unknown: resistance, coil });
      if (inner === b) {
        entries.add(resistance, resistance, -ohm, -henry);
        unknownOfWinding.set(element, resistance);
        return;
      }
      entries.add(resistance, resistance, -ohm);
      stampAdmittance(entries, inner, b, 1 / loss, 0);
      const inductance = addCurrent(inner, b);
      entries.add(inductance, inductance, 0, -henry);
      unknownOfWinding.set(element, inductance);
    },
    couple() {
      for (const { first, second, factor } of pairs) {
        const one = unknownOfWinding.get(first.id);
        const other = unknownOfWinding.get(second.id);
        if (one === undefined || other === undefined) continue;
        stampMutual(entries, one, other, factor * Math.sqrt(Math.max(first.inductance.value * second.inductance.value, 0)));
      }
    },
    stage: (stage) => stampShaped(entries, stage, () => size++),
  };
}

function isCoil(circuit: Circuit, element: ElementId): boolean {
  return circuit.elements[element]?.kind === 'coil';
}

function stampAdmittance(entries: Entries, a: number, b: number, siemens: number, farad: number): void {
  entries.add(a, a, siemens, farad);
  entries.add(b, b, siemens, farad);
  entries.add(a, b, -siemens, -farad);
  entries.add(b, a, -siemens, -farad);
}

/** A branch current from one node to another; returns its unknown. */
function stampCurrent(entries: Entries, unknown: number, a: number, b: number): number {
  entries.add(a, unknown, 1);
  entries.add(b, unknown, -1);
  entries.add(unknown, a, 1);
  entries.add(unknown, b, -1);
  return unknown;
}

/** A mutual inductance, in henries, between two branch currents. */
function stampMutual(entries: Entries, one: number, other: number, mutual: number): void {
  entries.add(one, other, 0, -mutual);
  entries.add(other, one, 0, -mutual);
}

/** A stage with its sections; `add` makes the unknowns that it needs besides. */
function stampShaped(entries: Entries, stage: StageStamp, add: () => number): void {
  const shaped = shapedInput(entries, stage, add);
  if (stage.ohm > 0) stampStage(entries, shaped);
  else stampIdealStage(entries, shaped, stampCurrent(entries, add(), stage.output, stage.minus));
}

/** The same stage, amplifying what is at the end of its sections, each of which has its unknowns. */
function shapedInput(entries: Entries, stage: StageStamp, add: () => number): StageStamp {
  if (stage.sections.length === 0) return stage;
  let from = add();
  equate(entries, from, [
    [from, 1],
    [stage.input, -1],
    [stage.reference, 1],
  ]);
  for (const section of stage.sections) from = stampSection(entries, section, from, add);
  return { ...stage, input: from, reference: -1 };
}

/** The unknown behind a section whose input is the unknown `from`. */
function stampSection(entries: Entries, section: Section, from: number, add: () => number): number {
  const filtered = section.kind === 'bell' ? stampBell(entries, section, from, add) : stampLowPass(entries, section, from, add);
  const { direct, through } = section;
  if (direct === 0 && through === 1) return filtered;
  const sum = add();
  equate(entries, sum, [
    [sum, 1],
    [from, -direct],
    [filtered, -through],
  ]);
  return sum;
}

/** y (1 + jω/w) = x. */
function stampLowPass(entries: Entries, { w }: Section, x: number, add: () => number): number {
  const y = add();
  equate(entries, y, [
    [y, 1, 1 / w],
    [x, -1],
  ]);
  return y;
}

/** y (jω)² + B jω y + w² y = B jω x, by its integral r = w y / jω. */
function stampBell(entries: Entries, { w, width }: Section, x: number, add: () => number): number {
  const [y, r] = [add(), add()];
  equate(entries, y, [
    [y, width / w, 1 / w],
    [r, 1],
    [x, -width / w],
  ]);
  equate(entries, r, [
    [r, 0, 1 / w],
    [y, -1],
  ]);
  return y;
}

/** An equation whose right side is nothing: the sum of unknowns, each times a number and jω times another. */
function equate(
  entries: Entries,
  row: number,
  terms: readonly (readonly [unknown: number, factor: number, rate?: number])[],
): void {
  for (const [unknown, factor, rate] of terms) entries.add(unknown, row, factor, rate ?? 0);
}

function stampStage(entries: Entries, { input, reference, output, minus, gain, ohm }: StageStamp): void {
  const siemens = 1 / ohm;
  stampAdmittance(entries, output, minus, siemens, 0);
  entries.add(input, output, -gain * siemens);
  entries.add(reference, output, gain * siemens);
  entries.add(input, minus, gain * siemens);
  entries.add(reference, minus, -gain * siemens);
}

/** A stage without output resistance decides the voltage at its output by an extra current. */
function stampIdealStage(entries: Entries, { input, reference, gain }: StageStamp, current: number): void {
  entries.add(input, current, -gain);
  entries.add(reference, current, gain);
}

/** Writes the admittance of a winding, siemens at each of these angular frequencies, into a row. */
export function windingAdmittance(winding: Winding, omega: Float64Array, rows: Rows, row: number): void {
  if (winding.elastance > 0) capacitiveAdmittance(winding, omega, rows, row);
  else inductiveAdmittance(winding, omega, rows, row);
}

/**
 * Admittance of a resistance R in series with an inductance whose reactance X has the loss resistance P across it, written with g = 1/P
 * so that one division serves both with and without: y = (R + g·X²·(1 + g·R) − jX) / (R² + X²·(1 + g·R)²).
 */
function inductiveAdmittance({ ohm, henry, loss }: Winding, omega: Float64Array, { re, im, width }: Rows, row: number): void {
  const g = 1 / loss;
  const lossy = 1 + g * ohm;
  const square = ohm * ohm;
  let at = row * width;
  for (const w of omega) {
    const x = w * henry;
    const y = x * lossy;
    const size = 1 / (square + y * y);
    re[at] = (ohm + g * x * y) * size;
    im[at++] = -x * size;
  }
}

/** The same with a capacitance in series: y = jω / (S + jωR) with S = 1/C. */
function capacitiveAdmittance({ ohm, elastance }: Winding, omega: Float64Array, { re, im, width }: Rows, row: number): void {
  const square = elastance * elastance;
  let at = row * width;
  for (const w of omega) {
    const r = w * ohm;
    const size = w / (square + r * r);
    re[at] = r * size;
    im[at++] = elastance * size;
  }
}
