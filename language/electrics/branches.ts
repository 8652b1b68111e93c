/** Elements as two-lead branches for one rotation of every shaft: what a network is stamped from. */
import type { Circuit, Element, ElementId, Gain, LugId, Quantity, Track } from '../circuit/model.js';
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
  readonly of?: 'lower' | 'upper' | 'input' | 'output';
  readonly ohm: number;
  readonly henry: number;
  readonly farad: number;
  /** Loss resistance across the inductance; Infinity where there is none. */
  readonly loss: number;
  /** Tolerance of the resistance, and whether it is known at all. */
  readonly tolerance: number;
  readonly known: boolean;
}

const plain = { ohm: 0, henry: 0, farad: 0, loss: Infinity, tolerance: 0, known: true };
const kept = new WeakMap<readonly number[], { readonly circuit: Circuit; readonly branches: readonly Branch[] }>();

/**
 * All branches of a circuit at given rotations, the lead and amplifier of `rig` across the output last.
 * Impossible values make no trouble: a resistance of nothing joins, a capacitor of nothing is left out, an endless resistance is open.
 */
export function branchesOf(circuit: Circuit, rotations: readonly number[]): readonly Branch[] {
  const known = kept.get(rotations);
  if (known !== undefined && isAlike(known.circuit, circuit)) return known.branches;
  const branches: Branch[] = [];
  for (const element of circuit.elements) addElement(branches, circuit, element, rotations);
  const { output, rig } = circuit;
  if (output !== undefined) {
    const ends = { a: output.tip, b: output.sleeve, element: -1 };
    if (rig.cable > 0) branches.push({ ...plain, ...ends, kind: 'capacitor', farad: rig.cable });
    if (Number.isFinite(rig.input)) addResistor(branches, { ...plain, ...ends, kind: 'resistor', ohm: rig.input });
  }
  kept.set(rotations, { circuit, branches });
  return branches;
}

/** Circuits that differ in their joints alone, as when repairs are tried, have the same branches. */
function isAlike(one: Circuit, other: Circuit): boolean {
  return one.elements === other.elements && one.shafts === other.shafts && one.output === other.output && one.rig === other.rig;
}

function addElement(branches: Branch[], circuit: Circuit, element: Element, rotations: readonly number[]): void {
  const ends = { a: element.a, b: element.b, element: element.id };
  switch (element.kind) {
    case 'resistor':
      addResistor(branches, { ...plain, ...ends, kind: 'resistor', ...ohms(element.resistance) });
      break;
    case 'capacitor':
      addCapacitor(branches, { ...plain, ...ends, kind: 'capacitor', farad: element.capacitance.value });
      break;
    case 'inductor': {
      const resistance = element.resistance === undefined ? {} : ohms(element.resistance);
      const branch: Branch = { ...plain, ...ends, kind: 'winding', henry: amount(element.inductance.value), ...resistance };
      if (isOpen(branch)) break;
      branches.push(branch.ohm > 0 || branch.henry > 0 ? branch : { ...branch, kind: 'join' });
      break;
    }
    case 'coil': {
      const loss = element.loss !== undefined && element.loss.value > 0 ? element.loss.value : Infinity;
      const branch: Branch = {
        ...plain,
        ...ends,
        kind: 'winding',
        ...ohms(element.resistance),
        henry: amount(element.inductance.value),
        loss,
      };
      if (!isOpen(branch)) branches.push(branch);
      addCapacitor(branches, { ...plain, ...ends, kind: 'capacitor', farad: element.capacitance.value });
      break;
    }
    case 'battery':
      branches.push({ ...plain, ...ends, kind: 'battery' });
      break;
    case 'track':
      addTrack(branches, element, rotations[element.shaft] ?? circuit.shafts[element.shaft]?.rest ?? 10);
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
  const { ohm, tolerance, known } = ohms(track.resistance);
  const x = travel(track, rotation);
  const half = { ...plain, kind: 'resistor', element: track.id, tolerance, known } as const;
  if (track.leavesTo !== undefined) {
    if (x >= 1) branches.push({ ...half, kind: 'join', a: track.wiper, b: track.leavesTo });
    else
      addResistor(
        branches,
        { ...half, a: track.a, b: track.wiper, of: 'lower', ohm: ohm * taperShare(track.taper, track.mid, x) },
        ohm,
      );
    return;
  }
  const end = ohm > 0 ? Math.min(amount(track.end) / ohm, 0.5) : 0;
  const share = Math.min(Math.max(taperShare(track.taper, track.mid, x), end), 1 - end);
  addResistor(branches, { ...half, a: track.a, b: track.wiper, of: 'lower', ohm: ohm * share }, ohm);
  addResistor(branches, { ...half, a: track.wiper, b: track.b, of: 'upper', ohm: ohm * (1 - share) }, ohm);
}

/** Input and output resistance of a stage; its amplification is no two-lead branch and is stamped by the network. */
function addStage(branches: Branch[], stage: Gain): void {
  const at = { ...plain, kind: 'resistor', element: stage.id } as const;
  addResistor(branches, { ...at, a: stage.a, b: stage.minus, of: 'input', ...ohms(stage.inputResistance) });
  branches.push({ ...at, a: stage.b, b: stage.minus, of: 'output', ...ohms(stage.outputResistance) });
}

/** A share below 1e-9 of the whole is the end of the travel reached by rounding. */
function addResistor(branches: Branch[], branch: Branch, whole = 0): void {
  if (branch.ohm === Infinity) return;
  branches.push(branch.ohm > whole * 1e-9 ? branch : { ...branch, kind: 'join', ohm: 0 });
}

function isOpen({ ohm, henry }: Branch): boolean {
  return ohm === Infinity || henry === Infinity;
}

function addCapacitor(branches: Branch[], branch: Branch): void {
  if (branch.farad > 0 && branch.farad < Infinity) branches.push(branch);
}

function ohms(quantity: Quantity): { readonly ohm: number; readonly tolerance: number; readonly known: boolean } {
  return { ohm: amount(quantity.value), tolerance: Math.min(amount(quantity.tolerance), 1), known: quantity.known };
}

/** Nothing below zero and nothing that is no number reaches the arithmetic. */
function amount(value: number): number {
  return value > 0 ? value : 0;
}
