/** Where nothing lies between tip and sleeve, also whichever way one pot is turned. */
import type { AnalysedCircuit, Shaft, ShaftId } from '../../../circuit/model.js';
import { branchesOf, netOf, type Nets, type Setting } from '../../../electrics/index.js';
import { createForest, join, type Link, rootOf, withoutEach } from '../../../numerics/index.js';
import { itemAt } from '../../../collections.js';

/** True where nothing lies between tip and sleeve in this setting: joints, contacts, and wipers at the end of their tracks. */
export function isShortedAt(circuit: AnalysedCircuit, folded: Nets, { rotations }: Setting): boolean {
  const forest = createForest(folded.count);
  for (const { kind, a, b } of branchesOf(circuit, rotations))
    if (kind === 'join') join(forest, netOf(folded, a), netOf(folded, b));
  return folded.tip >= 0 && rootOf(forest, folded.tip) === rootOf(forest, folded.ground);
}

/** Of these shafts those that can't lift a short of the setting, however they are turned alone: what lies beside their tracks joins tip and sleeve too. */
export function shortedWithout(
  circuit: AnalysedCircuit,
  folded: Nets,
  setting: Setting,
  shafts: readonly Shaft[],
): ReadonlySet<ShaftId> {
  if (!isShortedAt(circuit, folded, setting)) return new Set();
  circuit.analysis.work?.charge('fold', folded.count + circuit.elements.length);
  const own = new Map<number, Link[]>();
  const batches = shafts.map(({ tracks }) => {
    const links: Link[] = [];
    for (const id of tracks) own.set(id, links);
    return links;
  });
  const others: Link[] = [];
  for (const { kind, a, b, element } of branchesOf(circuit, setting.rotations))
    if (kind === 'join') (own.get(element) ?? others).push([netOf(folded, a), netOf(folded, b)]);
  const shorted = new Set<ShaftId>();
  withoutEach(folded.count, others, batches, (batch, rootOf) => {
    if (rootOf(folded.tip) === rootOf(folded.ground)) shorted.add(itemAt(shafts, batch).id);
  });
  return shorted;
}
