/** Relays: switches that a battery works in place of a hand. */
import type { AnalysedCircuit, Circuit } from '../../circuit/model.js';
import { nets } from '../network/nets.js';
import { createSupply } from '../network/supply.js';

/**
 * These positions with every relay that rests pulled where a battery drives current through its coil. What one relay switches may pull another; one
 * that holds itself by its own contacts stays at rest until something else pulls it.
 */
export function drivenPositions(circuit: AnalysedCircuit, positions: readonly number[]): readonly number[] {
  let at = positions;
  for (let pulled = hasRelays(circuit); pulled;) {
    pulled = false;
    const supply = createSupply(circuit, nets(circuit, at));
    for (const { id, rest, drive } of circuit.switches) {
      if (drive === undefined || at[id] !== rest || !supply.drives(drive)) continue;
      at = at.map((position, device) => (device === Number(id) ? drive.position : position));
      pulled = true;
    }
  }
  return at;
}

/** The same with every relay at rest, as when the battery is out. */
export function restingRelays(circuit: AnalysedCircuit, positions: readonly number[]): readonly number[] {
  if (!hasRelays(circuit)) return positions;
  return positions.map((at, index) => {
    const device = circuit.switches[index];
    return device?.drive === undefined ? at : (device.rest ?? at);
  });
}

/** True where a switch is worked by a battery: what another switch does may then depend on more than the nets that it joins. */
export function hasRelays({ switches }: Circuit): boolean {
  return switches.some(({ drive }) => drive !== undefined);
}
