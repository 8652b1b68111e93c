/** Hover on a run of wire or a direct joint: its ends, its net, gauge, length, resistance. */
import { wireDiameter } from '../../../language/circuit/index.js';
import { itemAt } from '../../../language/collections.js';
import { formatQuantity } from '../../../language/grammar/index.js';
import { lugById, type AnalysedCircuit, type Joint } from '../../../language/circuit/index.js';
import {
  netNames,
  nets,
  restingSetting,
  screenedWires,
  wireCapacitance,
  wireResistance,
} from '../../../language/electrics/index.js';
import { jointText } from './lug.js';
import { code, paragraphs, table } from './markdown.js';

/** All runs of one statement. */
export function wireHover(circuit: AnalysedCircuit, runs: readonly Joint[]): string {
  return paragraphs(...runs.map((run) => runTable(circuit, run)));
}

function runTable(circuit: AnalysedCircuit, run: Joint): string {
  const [from, to] = [lugById(circuit, run.a).label, lugById(circuit, run.b).label];
  const { length, gauge } = run;
  return table([
    [`${code(from)} to ${code(to)}`, jointText(run)],
    ['number', run.mark],
    ['net', code(netText(circuit, run))],
    ['length', length === undefined ? undefined : formatQuantity(length, 'metre')],
    ['conductor', gauge === undefined ? undefined : `${formatQuantity(wireDiameter(gauge), 'metre')} across`],
    [
      'resistance',
      gauge === undefined || length === undefined ? perMetre(gauge) : formatQuantity(wireResistance(gauge, length), 'ohm'),
    ],
    ['capacitance', counted(circuit, run) ?? capacitance(run)],
  ]);
}

function perMetre(gauge: number | undefined): string | undefined {
  return gauge === undefined ? undefined : `${formatQuantity(wireResistance(gauge, 1), 'ohm')} a metre`;
}

/** Of a shielded run where the workshop gives a capacitance a metre: what is counted in the response, or why nothing is. */
function counted(circuit: AnalysedCircuit, { id, shielded, screen }: Joint): string | undefined {
  const perMetre = circuit.build?.['shielded-capacitance'] ?? 0;
  if (!shielded || screen === undefined || perMetre === 0) return undefined;
  const wire = screenedWires(circuit).find(({ joint }) => joint.id === id);
  if (wire === undefined) return 'not counted: the screen is not connected';
  if (wire.farad === undefined) return 'not counted: state the length of the wire';
  return `${formatQuantity(wire.farad, 'farad')} from core to screen, at ${formatQuantity(perMetre, 'farad')} a metre`;
}

/** Of a run whose length is known; about, and only where there is a screen or a twin beside it. */
function capacitance({ length, gauge, shielded, twisted }: Joint): string | undefined {
  if (length === undefined || (!shielded && !twisted)) return undefined;
  return `about ${formatQuantity(wireCapacitance(shielded ? 'shielded' : 'twisted', length, gauge), 'farad', 2)}`;
}

/** The readable name of the net that a joint lies in, switches in their first position. */
export function netText(circuit: AnalysedCircuit, { a }: Joint): string {
  const folded = nets(circuit, restingSetting(circuit).positions);
  const net = folded.of[a] ?? -1;
  return net === folded.ground ? 'ground' : itemAt(netNames(circuit, folded), net);
}
