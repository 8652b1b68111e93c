/** Relays: switches that a battery works in place of a hand. */
import type { AnalysedCircuit, Circuit, SwitchId } from '../../circuit/model.js';
import { nets } from '../network/nets.js';
import { createSupply } from '../network/supply.js';

/**
 * These positions with each relay where the batteries bring it, but for those that are `named`, which stay. What one relay switches may pull another; one
 * that holds itself by its contacts stays at rest until something else pulls it. The same list where there is no relay.
 */
export function settledPositions(
  circuit: AnalysedCircuit,
  positions: readonly number[],
  named: readonly SwitchId[] = [],
): readonly number[] {
  if (!hasRelays(circuit)) return positions;
  const free = circuit.switches.filter(({ drive, id }) => drive !== undefined && !named.includes(id));
  const resting = new Map<number, number>(free.map(({ id, rest }) => [id, rest ?? 0]));
  let at: readonly number[] = positions.map((position, device) => resting.get(device) ?? position);
  for (let pulled = true; pulled;) {
    pulled = false;
    const supply = createSupply(circuit, nets(circuit, at));
    for (const { id, rest, drive } of free) {
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
