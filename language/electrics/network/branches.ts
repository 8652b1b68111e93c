/** Elements as two-lead branches for one rotation of every shaft: what a network is stamped from. */
import {
  type AnalysedCircuit,
  derive,
  derivation,
  elementId,
  type Element,
  type ElementId,
  type Gain,
  type LugId,
  type Quantity,
  type Track,
} from '../../circuit/model.js';
import { taperShare, travel } from './taper.js';

/**
 * `winding`: resistance and inductance in series, `loss` across the inductance, with an EMF where its element is a coil.
 * `join`: no impedance at all (a battery for signals, a wiper at the end of its track).
 */
export interface Branch {
  readonly kind: 'resistor' | 'capacitor' | 'winding' | 'join' | 'battery';
  readonly a: LugId;
  readonly b: LugId;
  /** −1 for the lead and the amplifier outside the jack. */
  readonly element: ElementId;
  /** Which half of a track, which end of an amplifier stage. */
  readonly of: 'lower' | 'upper' | 'input' | 'output' | undefined;
  readonly ohm: number;
  readonly henry: number;
  readonly farad: number;
  /** Loss resistance across the inductance; Infinity where there is none. */
  readonly loss: number;
  /** Tolerance of the resistance, whether the text leaves it to be assumed, and whether the resistance is known at all. */
  readonly tolerance: number;
  readonly assumed: boolean;
  readonly known: boolean;
}

type Ends = Pick<Branch, 'a' | 'b' | 'element'> & { readonly of?: Branch['of'] };
type Ohms = Pick<Branch, 'ohm' | 'tolerance' | 'assumed' | 'known'>;

/** What the lead and the amplifier have in place of an element. */
const outside = elementId(-1);
const plain: Ohms = { ohm: 0, tolerance: 0, assumed: false, known: true };

/**
 * All branches of a circuit at given rotations, the lead and amplifier of `rig` across the output last.
 * Impossible values make no trouble: a resistance of nothing joins, a capacitor of nothing is left out, an endless resistance is open.
 */
export function branchesOf(circuit: AnalysedCircuit, rotations: readonly number[]): readonly Branch[] {
  const kept = derive(circuit, branchesByRotations);
  const branches = kept.get(rotations) ?? makeBranches(circuit, rotations);
  kept.set(rotations, branches);
  return branches;
}

/** What carries direct current inside the instrument at given rotations: no capacitor, no battery, nothing of the rig. */
export function directBranchesOf(circuit: AnalysedCircuit, rotations: readonly number[]): readonly Branch[] {
  const kept = derive(circuit, directByRotations);
  const direct =
    kept.get(rotations) ??
    branchesOf(circuit, rotations).filter(({ element, kind }) => element >= 0 && kind !== 'capacitor' && kind !== 'battery');
  kept.set(rotations, direct);
  return direct;
}

/** By the list of the rotations itself, which the settings of one enumeration share. */
type ByRotations = WeakMap<readonly number[], readonly Branch[]>;
const branchesByRotations = derivation(['elements', 'values', 'rests', 'output'], (): ByRotations => new WeakMap());
const directByRotations = derivation(['elements', 'values', 'rests', 'output'], (): ByRotations => new WeakMap());

/** The branches of each element by id, whatever its shaft is turned to; none for a track. */
const fixedBranches = derivation(['elements', 'values'], ({ elements }): readonly (readonly Branch[])[] =>
  elements.map((element) => {
    const branches: Branch[] = [];
    if (element.kind !== 'track') addElement(branches, element);
    return branches;
  }),
);

function makeBranches(circuit: AnalysedCircuit, rotations: readonly number[]): readonly Branch[] {
  const branches: Branch[] = [];
  const fixed = derive(circuit, fixedBranches);
  for (const element of circuit.elements) {
    if (element.kind === 'track')
      addTrack(branches, element, rotations[element.shaft] ?? circuit.shafts[element.shaft]?.rest ?? 10);
    else for (const branch of fixed[element.id] ?? []) branches.push(branch);
  }
  const { output, rig } = circuit;
  if (output !== undefined) {
    const ends: Ends = { a: output.tip, b: output.sleeve, element: outside };
    addCapacitor(branches, ends, rig.cable);
    if (Number.isFinite(rig.input)) addResistor(branches, ends, { ...plain, ohm: rig.input });
  }
  return branches;
}

function addElement(branches: Branch[], element: Exclude<Element, Track>): void {
  const ends: Ends = { a: element.a, b: element.b, element: element.id };
  switch (element.kind) {
    case 'resistor':
      addResistor(branches, ends, ohms(element.resistance));
      break;
    case 'capacitor':
      addCapacitor(branches, ends, element.capacitance.value);
      break;
    case 'inductor': {
      const resistance = element.resistance === undefined ? plain : ohms(element.resistance);
      const branch = winding(ends, resistance, amount(element.inductance.value), Infinity);
      if (isOpen(branch)) break;
      branches.push(branch.ohm > 0 || branch.henry > 0 ? branch : resistive('join', ends, { ...resistance, ohm: 0 }));
      break;
    }
    case 'coil': {
      const loss = element.loss !== undefined && element.loss.value > 0 ? element.loss.value : Infinity;
      const branch = winding(ends, ohms(element.resistance), amount(element.inductance.value), loss);
      if (!isOpen(branch)) branches.push(branch);
      addCapacitor(branches, ends, element.capacitance.value);
      break;
    }
    case 'battery':
      branches.push(resistive('battery', ends, plain));
      break;
    case 'gain':
      addStage(branches, element);
      break;
  }
}

/** The branches of one track with its shaft at this rotation. */
export function trackHalves(track: Track, rotation: number): readonly Branch[] {
  const branches: Branch[] = [];
  addTrack(branches, track, rotation);
  return branches;
}

/** The wiper parts the track in two; at the end of its travel one half is nothing, and joins. */
function addTrack(branches: Branch[], track: Track, rotation: number): void {
  const { ohm, ...spread } = ohms(track.resistance);
  const x = travel(track, rotation);
  const { a, b, wiper, id: element, leavesTo } = track;
  const part = (share: number): Ohms => ({ ohm: ohm * share, ...spread });
  if (leavesTo !== undefined) {
    if (x >= 1) branches.push(resistive('join', { element, a: wiper, b: leavesTo }, { ohm: 0, ...spread }));
    else addResistor(branches, { element, a, b: wiper, of: 'lower' }, part(taperShare(track.taper, track.mid, x)), ohm);
    return;
  }
  const end = ohm > 0 ? Math.min(amount(track.end) / ohm, 0.5) : 0;
  const share = Math.min(Math.max(taperShare(track.taper, track.mid, x), end), 1 - end);
  addResistor(branches, { element, a, b: wiper, of: 'lower' }, part(share), ohm);
  addResistor(branches, { element, a: wiper, b, of: 'upper' }, part(1 - share), ohm);
}

/** Input and output resistance of a stage; its amplification is no two-lead branch and is stamped by the network. */
function addStage(branches: Branch[], stage: Gain): void {
  const { id: element, minus } = stage;
  addResistor(branches, { element, a: stage.a, b: minus, of: 'input' }, ohms(stage.inputResistance));
  branches.push(resistive('resistor', { element, a: stage.b, b: minus, of: 'output' }, ohms(stage.outputResistance)));
}

/** A share below 1e-9 of the whole is the end of the travel reached by rounding. */
function addResistor(branches: Branch[], ends: Ends, value: Ohms, whole = 0): void {
  if (value.ohm === Infinity) return;
  const isMore = value.ohm > whole * 1e-9;
  branches.push(isMore ? resistive('resistor', ends, value) : resistive('join', ends, { ...value, ohm: 0 }));
}

function addCapacitor(branches: Branch[], ends: Ends, farad: number): void {
  if (farad > 0 && farad < Infinity) branches.push(toBranch('capacitor', ends, plain, { farad }));
}

function resistive(kind: 'resistor' | 'join' | 'battery', ends: Ends, value: Ohms): Branch {
  return toBranch(kind, ends, value, {});
}

function winding(ends: Ends, value: Ohms, henry: number, loss: number): Branch {
  return toBranch('winding', ends, value, { henry, loss });
}

/** All branches are made here, by one literal: the engine knows one shape then, and reads a branch in a fraction of the time that five shapes take. */
function toBranch(
  kind: Branch['kind'],
  { a, b, element, of }: Ends,
  { ohm, tolerance, assumed, known }: Ohms,
  { henry = 0, farad = 0, loss = Infinity }: Partial<Pick<Branch, 'henry' | 'farad' | 'loss'>>,
): Branch {
  return { kind, a, b, element, of, ohm, henry, farad, loss, tolerance, assumed, known };
}

function isOpen({ ohm, henry }: Branch): boolean {
  return ohm === Infinity || henry === Infinity;
}

function ohms(quantity: Quantity): Ohms {
  return {
    ohm: amount(quantity.value),
    tolerance: Math.min(amount(quantity.tolerance), 1),
    assumed: quantity.assumed === true,
    known: quantity.known,
  };
}

/** Nothing below zero and nothing that is no number reaches the arithmetic. */
function amount(value: number): number {
  return value > 0 ? value : 0;
}
