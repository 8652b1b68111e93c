/** All mentions of a thing in all files. */
import type { Position } from 'vscode-languageserver';
import type { NameUse } from '../../language/circuit/index.js';
import { identityOf, placeKey, useAt } from './places.js';
import type { Snapshot } from './workspace.js';

/** What is named at the place, every mention of it in these files, each once, in their order, and the files whose circuits mention it. */
export function mentionsOf(
  at: Snapshot,
  position: Position,
  snapshots: readonly Snapshot[],
): { readonly use: NameUse; readonly mentions: readonly NameUse[]; readonly sharing: readonly Snapshot[] } | undefined {
  const use = useAt(at.circuit, at.uri, position);
  const identity = use === undefined ? undefined : identityOf(at.circuit, use);
  if (use === undefined || identity === undefined) return undefined;
  const found = new Map<string, NameUse>();
  const sharing = snapshots.filter(({ circuit }) => {
    const own = circuit.names.filter((other) => other.kind === use.kind && identityOf(circuit, other) === identity);
    for (const other of own) found.set(placeKey(other.range), other);
    return own.length > 0;
  });
  return { use, mentions: [...found.values()], sharing };
}
