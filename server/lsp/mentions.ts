/** All mentions of a thing in all files. */
import type { Position } from 'vscode-languageserver';
import type { NameUse } from '../../language/circuit/index.js';
import { identityOf, placeKey, useAt } from './places.js';
import type { Snapshot } from './workspace.js';

/** What stands at the place, and every mention of it in these files, each once, in their order. */
export function mentionsOf(
  at: Snapshot,
  position: Position,
  snapshots: readonly Snapshot[],
): { readonly use: NameUse; readonly mentions: readonly NameUse[] } | undefined {
  const use = useAt(at.circuit, at.uri, position);
  const identity = use === undefined ? undefined : identityOf(at.circuit, use);
  if (use === undefined || identity === undefined) return undefined;
  const found = new Map<string, NameUse>();
  for (const { circuit } of snapshots) {
    for (const other of circuit.names) {
      if (other.kind === use.kind && identityOf(circuit, other) === identity) found.set(placeKey(other.range), other);
    }
  }
  return { use, mentions: [...found.values()] };
}
