/** Repairs of a circuit, searched for while nothing else is asked: what is not found in time is searched on at the next question. */
import type { CancellationToken } from 'vscode-languageserver';
import type { Circuit } from '../../language/circuit/index.js';
import { repairSteps, type Repair } from '../../language/intent/index.js';
import { inSlices } from './pause.js';

/** Milliseconds after which an answer without repairs is better than none. */
const patience = 2000;

interface Search {
  readonly steps: Generator<undefined, readonly Repair[]>;
  found?: readonly Repair[];
}

const searches = new WeakMap<Circuit, Search>();

/** The repairs of a circuit as far as they are known in time; none where the question is taken back. */
export async function repairsOf(circuit: Circuit, token: CancellationToken): Promise<readonly Repair[]> {
  const search = searches.get(circuit) ?? { steps: repairSteps(circuit) };
  searches.set(circuit, search);
  const until = performance.now() + patience;
  await inSlices(goOn(search), () => token.isCancellationRequested || performance.now() > until);
  return search.found ?? [];
}

/** Goes on with a search, which several questions may do in turn. */
function* goOn(search: Search): Generator<undefined, void> {
  while (search.found === undefined) {
    const step = search.steps.next();
    if (step.done === true) search.found = step.value;
    else yield;
  }
}
