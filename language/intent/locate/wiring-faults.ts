/** Faults of wiring: an end on the wrong lug, two ends exchanged, a part turned; the same slips that repairs undo. */
import { lugById, type AnalysedCircuit, type Circuit } from '../../circuit/model.js';
import { candidates } from '../repair/candidates.js';
import { rewired, type Change } from '../repair/change.js';
import { createFolding } from '../repair/folding.js';
import { describeMistake } from '../repair/repair-title.js';
import { wiringOf } from '../repair/wiring.js';
import type { Fault, FaultKind } from './model.js';

/** A slip less likely than this is not looked for on the bench: another part's lug, a lug far along. */
const highestCost = 2.2;

/** A wire that has been soldered and has worked stays where it is: slips weigh little against what fails. */
const slip = 0.25;

const kinds: Readonly<Partial<Record<Change['kind'], FaultKind>>> = {
  move: 'wrong lug',
  exchange: 'exchanged wires',
  turn: 'turned part',
};

export function wiringFaults(circuit: AnalysedCircuit): readonly Fault[] {
  const classes = createFolding(circuit).classes([]).slice();
  return candidates(wiringOf(circuit), classes).flatMap((change): readonly Fault[] => {
    const kind = kinds[change.kind];
    if (kind === undefined || change.cost > highestCost || !isOnOnePart(circuit, change)) return [];
    const { says, where } = describeMistake(circuit, change);
    return [{ kind, says, where, weight: slip / change.cost, circuit: rewired(circuit, [change]) }];
  });
}

/** Ends that changed places, or one that moved, on the lugs of one part. */
function isOnOnePart(circuit: Circuit, { moves }: Change): boolean {
  return new Set(moves.flatMap(({ mention, to }) => [lugById(circuit, mention.lug).part, lugById(circuit, to).part])).size === 1;
}
