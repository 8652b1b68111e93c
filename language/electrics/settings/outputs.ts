/** Where an instrument is heard: at the tip of its first jack, and at every other contact of a jack that a pickup reaches. */
import {
  altered,
  type AnalysedCircuit,
  derive,
  derivation,
  isBuiltIn,
  lugById,
  type LugId,
  type Output,
  partById,
} from '../../circuit/model.js';
import { netOf, nets } from '../network/nets.js';
import { createSolver } from '../solver/solver.js';
import { enumerate } from './enumerate.js';

/** A coil is audible at an output if it delivers at least this share of its voltage (−60 dB). */
const silence = 1e-3;
const listeningHz = 100;
/** A few settings show whether a contact is wired to a pickup; each is one solution. */
const mostTried = 64;

/**
 * The outputs in order of declaration, the tip of the first jack first. A further contact counts where a pickup reaches it in some position, so that a ring
 * that switches a battery is none.
 */
export function outputsOf(circuit: AnalysedCircuit): readonly Output[] {
  return derive(circuit, outputs);
}

/** The circuit with this contact of a jack as its output, and a plug inserted that connects to it separately; the same circuit for the usual output. */
export function heardAt(circuit: AnalysedCircuit, lug: LugId | undefined): AnalysedCircuit {
  if (lug === undefined || lug === circuit.output?.tip) return circuit;
  const known = derive(circuit, circuitsByOutput);
  const made = known.get(lug) ?? pluggedAt(circuit, lug);
  known.set(lug, made);
  return made;
}

/** `jack.tip`. */
export function outputLabel(circuit: AnalysedCircuit): string {
  return circuit.output === undefined ? '' : lugById(circuit, circuit.output.tip).label;
}

const circuitsByOutput = derivation(['text'], () => new Map<LugId, AnalysedCircuit>());

const outputs = derivation(['text'], (circuit: AnalysedCircuit): readonly Output[] => {
  const { output, jacks } = circuit;
  if (output === undefined) return [];
  // A wire inside an assembly leads to its jack as any other does.
  const wired = new Set(
    circuit.joints.flatMap((joint) => (isBuiltIn(joint, lugById(circuit, joint.a).part) ? [] : [joint.a, joint.b])),
  );
  const others = jacks.flatMap((part) => {
    const sleeve = sleeveOf(circuit, part);
    if (sleeve === undefined) return [];
    return partById(circuit, part)
      .lugs.filter((lug) => ['tip', 'ring'].includes(lugById(circuit, lug).name) && lug !== output.tip && wired.has(lug))
      .map((tip): Output => ({ part, tip, sleeve }));
  });
  return [output, ...others.filter(({ tip }) => isReached(heardAt(circuit, tip)))];
});

function pluggedAt(circuit: AnalysedCircuit, tip: LugId): AnalysedCircuit {
  const { part } = lugById(circuit, tip);
  const sleeve = sleeveOf(circuit, part);
  if (sleeve === undefined) return circuit;
  const output: Output = { part, tip, sleeve };
  const plugs = circuit.switches.find((device) => device.part === part);
  if (plugs === undefined) return altered(circuit, { output });
  // A plug is in, and the contact is neither bridged to the sleeve nor to another contact by it.
  const isOwn = (joins: readonly (readonly LugId[])[]): boolean => joins.every((group) => !group.includes(tip));
  const rest = plugs.positions.findIndex(({ key, joins }) => key !== 'empty' && isOwn(joins));
  if (rest < 0) return altered(circuit, { output });
  const switches = circuit.switches.map((device) => (device === plugs ? { ...device, rest } : device));
  return altered(circuit, { output, switches });
}

function sleeveOf(circuit: AnalysedCircuit, part: Output['part']): LugId | undefined {
  return partById(circuit, part).lugs.find((lug) => lugById(circuit, lug).name === 'sleeve');
}

function isReached(circuit: AnalysedCircuit): boolean {
  const { settings, group } = enumerate(circuit);
  const distinct = settings.filter((_, i) => group.indexOf(group[i] ?? -1) === i).slice(0, mostTried);
  // A volume that is wired the wrong way round is silent at rest, and turns down what is heard there.
  const halfWay = distinct.map((setting) => ({ ...setting, rotations: setting.rotations.map(() => 5) }));
  return [...distinct, ...halfWay].some((setting) => {
    const folded = nets(circuit, setting.positions);
    if (circuit.output === undefined || netOf(folded, circuit.output.tip) === folded.ground) return false;
    const solver = createSolver(circuit, folded, setting);
    if (solver.problem !== undefined) return false;
    const { re, im } = solver.transfers(listeningHz);
    return solver.weights.some((weight, i) => weight !== 0 && Math.hypot(re[i] ?? 0, im[i] ?? 0) >= silence);
  });
}
