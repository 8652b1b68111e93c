/** Elements as two-lead branches for one rotation of every shaft: what a network is stamped from. */
import {
  type AnalysedCircuit,
  type Coil,
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
import { type CoreSection, coreSections } from '../../coil/index.js';
import { linkageOf } from './coupling.js';
import { screenedWires } from './screens.js';
import { type Section, sectionsOf } from './sections.js';
import { trackShare, travel } from './taper.js';

/**
 * `winding`: resistance and inductance in series, `loss` across the inductance, with an EMF where its element is a coil. Where the inductance is lossy itself
 * `core` has the sections that take its place.
 * `piezo`: a capacitance with an EMF. `join`: no impedance at all (a battery for signals, a wiper at the end of its track). `diode`: what it is
 * for signals while a battery drives current through it; otherwise it is open.
 */
export interface Branch {
  readonly kind: 'resistor' | 'capacitor' | 'winding' | 'piezo' | 'join' | 'battery' | 'diode';
  readonly a: LugId;
  readonly b: LugId;
  /** `outside` for the lead and the amplifier outside the jack, `screening` for the capacitance of a shielded wire. */
  readonly element: ElementId;
  /** Which half of a track, which end of an amplifier stage. */
  readonly of: 'lower' | 'upper' | 'input' | 'output' | undefined;
  readonly ohm: number;
  readonly henry: number;
  readonly farad: number;
  /** Loss resistance across the inductance; Infinity where there is none. */
  readonly loss: number;
  /** What acts in place of the inductance, in a row; empty where that is the inductance alone. */
  readonly core: readonly CoreSection[];
  /** Tolerance of the resistance, whether the text leaves it to be assumed, and whether the resistance is known at all. */
  readonly tolerance: number;
  readonly assumed: boolean;
  readonly known: boolean;
  /** Of the output of an amplifier stage: what its bands do; of a coil: what a cover does to its voltage. */
  readonly sections: readonly Section[];
}

type Ends = Pick<Branch, 'a' | 'b' | 'element'> & { readonly of?: Branch['of'] };
type Shape = Pick<Branch, 'henry' | 'farad' | 'loss' | 'core' | 'sections'>;
type Ohms = Pick<Branch, 'ohm' | 'tolerance' | 'assumed' | 'known'>;

/** What the lead and the amplifier have for an element. */
export const outside = elementId(-1);
/** What a shielded wire has for an element; its branch ends on the wire's screen. */
export const screening = elementId(-2);
const none: readonly Section[] = [];
const plainCore: readonly CoreSection[] = [];
/** Slope of a diode at 1 mA, ohm: its thermal voltage of 26 mV over the current (W. Shockley, "The theory of p-n junctions in semiconductors and p-n junction transistors", Bell System Technical Journal 28, 1949). */
const conductingOhm = 26;
const plain: Ohms = { ohm: 0, tolerance: 0, assumed: false, known: true };

/**
 * All branches of a circuit at given rotations, last the lead and amplifier of `rig` across the output and the capacitances of shielded wires.
 * Impossible values make no trouble: a resistance of nothing joins, a capacitor of nothing is left out, an endless resistance is open.
 */
export function branchesOf(circuit: AnalysedCircuit, rotations: readonly number[]): readonly Branch[] {
  const kept = derive(circuit, branchesByRotations);
  const branches = kept.get(rotations) ?? makeBranches(circuit, rotations);
  kept.set(rotations, branches);
  const screens = derive(circuit, screenBranches);
  return screens.length === 0 ? branches : [...branches, ...screens];
}

/** Made apart from the others, since they alone change with the wires. */
const screenBranches = derivation(['joints', 'values'], (circuit): readonly Branch[] => {
  const branches: Branch[] = [];
  for (const { joint, screen, farad = 0 } of screenedWires(circuit))
    addCapacitor(branches, { a: joint.a, b: screen, element: screening }, farad);
  return branches;
});

/** What carries direct current inside the instrument at given rotations: no capacitor, no battery, nothing of the rig. */
export function directBranchesOf(circuit: AnalysedCircuit, rotations: readonly number[]): readonly Branch[] {
  const kept = derive(circuit, directByRotations);
  const direct =
    kept.get(rotations) ?? branchesOf(circuit, rotations).filter(({ element, kind }) => element >= 0 && carriesDirect(kind));
  kept.set(rotations, direct);
  return direct;
}

function carriesDirect(kind: Branch['kind']): boolean {
  return kind !== 'capacitor' && kind !== 'piezo' && kind !== 'battery';
}

/** By the list of the rotations itself, which the settings of one enumeration share. */
type ByRotations = WeakMap<readonly number[], readonly Branch[]>;
const branchesByRotations = derivation(['elements', 'values', 'rests', 'output'], (): ByRotations => new WeakMap());
const directByRotations = derivation(['elements', 'values', 'rests', 'output'], (): ByRotations => new WeakMap());

/** The branches of each element by id, whatever its shaft is turned to; none for a track, or a stage with a knob. */
const fixedBranches = derivation(['elements', 'values'], (circuit): readonly (readonly Branch[])[] =>
  circuit.elements.map((element) => {
    const branches: Branch[] = [];
    if (element.kind === 'coil') addCoil(branches, element, linkageOf(circuit, element));
    else if (element.kind !== 'track' && !isTurned(element)) addElement(branches, element);
    return branches;
  }),
);

/** The winding of a coil; undefined for a piezo element, and where the winding is open. */
export function windingBranch(circuit: AnalysedCircuit, coil: ElementId): Branch | undefined {
  return derive(circuit, fixedBranches)[coil]?.find(({ kind }) => kind === 'winding');
}

function isTurned(element: Element): element is Gain {
  return element.kind === 'gain' && (element.bands ?? []).some((band) => band.kind !== 'pole' && band.shaft !== undefined);
}

function makeBranches(circuit: AnalysedCircuit, rotations: readonly number[]): readonly Branch[] {
  const branches: Branch[] = [];
  const fixed = derive(circuit, fixedBranches);
  for (const element of circuit.elements) {
    if (element.kind === 'track')
      addTrack(branches, element, rotations[element.shaft] ?? circuit.shafts[element.shaft]?.rest ?? 10);
    else if (isTurned(element)) addStage(branches, element, rotations);
    else for (const branch of fixed[element.id] ?? []) branches.push(branch);
  }
  const { output, rig } = circuit;
  if (output !== undefined) {
    const ends: Ends = { a: output.tip, b: output.sleeve, element: outside };
    addCapacitor(branches, ends, rig.cable + (rig.inputCapacitance ?? 0));
    if (Number.isFinite(rig.input)) addResistor(branches, ends, { ...plain, ohm: rig.input });
  }
  return branches;
}

/** `linkage`: what another coil that shares its field adds to its flux. */
function addCoil(branches: Branch[], coil: Coil, linkage: number): void {
  const ends: Ends = { a: coil.a, b: coil.b, element: coil.id };
  if (coil.piezo === true) {
    branches.push(toBranch('piezo', ends, plain, { farad: amount(coil.capacitance.value) }));
    return;
  }
  const loss = coil.loss !== undefined && coil.loss.value > 0 ? coil.loss.value : Infinity;
  const henry = amount(coil.inductance.value);
  const eddy = eddyOf(coil);
  const isPlain = eddy === undefined && coil.lossExponent === undefined;
  const core = isPlain || henry === Infinity ? plainCore : coreSections({ henry, eddy, exponent: coil.lossExponent, linkage });
  // The cover is one for all coils, and so is the frequency from which on it shades them.
  const w = eddy === undefined ? 0 : eddy.ohm / (eddy.share * henry * linkage);
  const shading = Math.min(amount(coil.coverShading ?? 0), 1);
  const sections: readonly Section[] =
    shading > 0 && w > 0 && w < Infinity ? [{ kind: 'low-pass', w, width: 0, direct: 1 - shading, through: shading }] : none;
  const branch = toBranch('winding', ends, ohms(coil.resistance), { henry, loss, core, sections });
  if (!isOpen(branch)) branches.push(branch);
  addCapacitor(branches, ends, coil.capacitance.value);
}

/** A path of eddy currents without any resistance would short the share for good. */
const leastEddyOhm = 1e-6;

function eddyOf({ eddyInductance = 0, eddyResistance }: Coil): { readonly share: number; readonly ohm: number } | undefined {
  const share = Math.min(amount(eddyInductance), 1);
  return share > 0 && eddyResistance !== undefined
    ? { share, ohm: Math.max(amount(eddyResistance.value), leastEddyOhm) }
    : undefined;
}

function addElement(branches: Branch[], element: Exclude<Element, Track | Coil>): void {
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
      const branch = toBranch('winding', ends, resistance, { henry: amount(element.inductance.value) });
      if (isOpen(branch)) break;
      branches.push(branch.ohm > 0 || branch.henry > 0 ? branch : resistive('join', ends, { ...resistance, ohm: 0 }));
      break;
    }
    case 'battery':
      branches.push(resistive('battery', ends, plain));
      break;
    case 'diode':
      branches.push(resistive('diode', ends, { ...plain, ohm: conductingOhm }));
      break;
    case 'gain':
      addStage(branches, element, []);
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
    else addResistor(branches, { element, a, b: wiper, of: 'lower' }, part(trackShare(track, x)), ohm);
    return;
  }
  const end = ohm > 0 ? Math.min(amount(track.end) / ohm, 0.5) : 0;
  const share = Math.min(Math.max(trackShare(track, x), end), 1 - end);
  addResistor(branches, { element, a, b: wiper, of: 'lower' }, part(share), ohm);
  addResistor(branches, { element, a: wiper, b, of: 'upper' }, part(1 - share), ohm);
}

/** Input and output resistance of a stage; its amplification is no two-lead branch and is stamped by the network. */
function addStage(branches: Branch[], stage: Gain, rotations: readonly number[]): void {
  const { id: element, minus, inverting = minus } = stage;
  addResistor(branches, { element, a: stage.a, b: inverting, of: 'input' }, ohms(stage.inputResistance));
  const sections = stage.bands === undefined ? none : sectionsOf(stage, rotations);
  branches.push(
    toBranch('resistor', { element, a: stage.b, b: minus, of: 'output' }, ohms(stage.outputResistance), { sections }),
  );
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

function resistive(kind: 'resistor' | 'join' | 'battery' | 'diode', ends: Ends, value: Ohms): Branch {
  return toBranch(kind, ends, value, {});
}

/** All branches are made here, by one literal: the engine knows one shape then, and reads a branch in a fraction of the time that five shapes take. */
function toBranch(
  kind: Branch['kind'],
  { a, b, element, of }: Ends,
  { ohm, tolerance, assumed, known }: Ohms,
  { henry = 0, farad = 0, loss = Infinity, core = plainCore, sections = none }: Partial<Shape>,
): Branch {
  return { kind, a, b, element, of, ohm, henry, farad, loss, core, tolerance, assumed, known, sections };
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
