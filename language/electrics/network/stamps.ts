/** What each branch writes into the matrix. */
import type { Circuit } from '../../circuit/model.js';
import { type Admittance, createEntries, type Entries } from '../../numerics/index.js';
import type { Branch } from './branches.js';
import type { Pair } from './coupling.js';
import type { Curve } from './curves.js';
import { type CoilSource, createPlacedCurves, type Ends, type PlacedWinding } from './placed-curves.js';
import type { Section } from './sections.js';

/** A winding whose branch current is one of the unknowns, because it has no impedance or shares a field without losses; `coil` is −1 where no pickup's voltage is in it. */
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
  /** Between which unknowns the rows of the curves lie; none for a row that only a source needs. */
  readonly admittances: readonly Admittance[];
  readonly curves: readonly Curve[];
  readonly sources: readonly CoilSource[];
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
  const currents: BranchCurrent[] = [];
  const placed = createPlacedCurves(circuit);
  const { admittances, curves, sources } = placed;
  let size = nodes;
  const coilOf = ({ element }: Branch): number => (circuit.elements[element]?.kind === 'coil' ? element : -1);
  const addCurrent = (branch: Branch, [a, b]: Ends): number => {
    const unknown = stampCurrent(entries, size++, a, b);
    currents.push({ unknown, coil: coilOf(branch) });
    return unknown;
  };
  const addAlone = ({ branch, ends }: PlacedWinding): void => {
    if (ends[0] === ends[1]) return;
    if (branch.farad > 0 || branch.ohm > 0 || branch.henry > 0) placed.winding({ branch, ends });
    else addCurrent(branch, ends);
  };
  /** Unknown current of each coupled winding without losses, and the ends of each with some. */
  const unknownOfWinding = new Map<number, number>();
  const lossy = new Map<number, PlacedWinding>();
  return {
    entries,
    admittances,
    curves,
    sources,
    currents,
    size: () => size,
    passive(a, b, ohm, elastance) {
      if (a === b) return;
      if (elastance === 0) stampAdmittance(entries, a, b, 1 / ohm, 0);
      else if (ohm === 0) stampAdmittance(entries, a, b, 0, 1 / elastance);
      else placed.capacitive([a, b], ohm, elastance);
    },
    winding(branch, a, b) {
      const { element, ohm, henry } = branch;
      const winding: PlacedWinding = { branch, ends: [a, b] };
      const pair = pairs.find(({ first, second }) => first.id === element || second.id === element);
      if (pair === undefined) addAlone(winding);
      else if (!isLossy(pair.first) && !isLossy(pair.second)) {
        const unknown = addCurrent(branch, winding.ends);
        entries.add(unknown, unknown, -ohm, -henry);
        unknownOfWinding.set(element, unknown);
      } else if (ohm > 0 || henry > 0) lossy.set(element, winding);
      else addAlone(winding);
    },
    couple() {
      for (const { first, second, factor } of pairs) {
        const [one, other] = [unknownOfWinding.get(first.id), unknownOfWinding.get(second.id)];
        if (one !== undefined && other !== undefined)
          stampMutual(entries, one, other, factor * Math.sqrt(Math.max(first.inductance.value * second.inductance.value, 0)));
        const windings = [lossy.get(first.id), lossy.get(second.id)].filter((winding) => winding !== undefined);
        const [winding, partner] = windings;
        if (winding !== undefined && partner !== undefined) placed.pair(winding, partner, factor);
        else windings.forEach(addAlone);
      }
    },
    stage: (stage) => stampShaped(entries, stage, () => size++),
  };
}

/** True for what loses anything but in its resistance: its admittances are worked out in one, so that no unknown is needed inside. */
function isLossy(wound: Pair['first']): boolean {
  return (
    wound.kind === 'coil' && (wound.loss !== undefined || wound.eddyResistance !== undefined || wound.lossExponent !== undefined)
  );
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
