/** Capacitance of shielded wires inside the instrument, from the core to the screen, by their length. */
import {
  type AnalysedCircuit,
  derive,
  derivation,
  type Joint,
  lugById,
  type LugId,
  lugLookup,
  statedLength,
} from '../../circuit/model.js';
import { listed } from '../../words.js';

/** A shielded wire whose screen is connected somewhere, where `build` gives a capacitance a metre. */
export interface ScreenedWire {
  readonly joint: Joint;
  /** The metal lug of its screen. */
  readonly screen: LugId;
  /** Farad from core to screen; absent where the text doesn't state the wire's length, so that nothing is counted. */
  readonly farad?: number;
}

/**
 * The shielded wires that count, in the order of the text: none where `build { shielded-capacitance … }` isn't given. The capacitance is the length times
 * that of a metre. A wire's core is one net from end to end, so that it matters nowhere along the wire which end the capacitance is drawn at. A screen
 * that is connected nowhere carries no current, and its wire is left out.
 */
export function screenedWires(circuit: AnalysedCircuit): readonly ScreenedWire[] {
  return derive(circuit, wires);
}

/** What has to be said of the shielded wires of which nothing is counted, because the text doesn't state their length; undefined where there is none. */
export function uncountedWires(circuit: AnalysedCircuit): string | undefined {
  const names = screenedWires(circuit).flatMap(({ joint: { a, b }, farad }) =>
    farad === undefined ? [`${lugById(circuit, a).label} to ${lugById(circuit, b).label}`] : [],
  );
  if (names.length === 0) return undefined;
  const [wires, length] = names.length === 1 ? ['the shielded wire', 'its length'] : ['the shielded wires', 'their lengths'];
  return `the capacitance of ${wires} ${listed(names)} isn’t counted: state ${length}`;
}

const wires = derivation(['joints', 'values'], (circuit): readonly ScreenedWire[] => {
  const perMetre = circuit.build?.['shielded-capacitance'] ?? 0;
  if (!(perMetre > 0)) return [];
  const lookup = lugLookup(circuit);
  const connected = new Set(circuit.joints.flatMap(({ kind, a }) => (kind === 'screen' ? [a] : [])));
  return circuit.joints.flatMap((joint): ScreenedWire[] => {
    const { screen } = joint;
    if (joint.kind !== 'wire' || screen === undefined || !connected.has(screen)) return [];
    const length = statedLength(lookup, joint);
    return [{ joint, screen, ...(length === undefined ? {} : { farad: length * perMetre }) }];
  });
});
