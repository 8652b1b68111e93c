/** Repairs of a circuit, searched for a slice at a time with the budget that the command has, so that the same text has the same repairs in both. */
import type { CancellationToken } from 'vscode-languageserver';
import { derivation, derive, type AnalysedCircuit } from '../../language/circuit/index.js';
import { repairSteps, usualWork, type Repair } from '../../language/intent/index.js';
import { createWork, type Work } from '../../language/work.js';
import { stoppedFixes } from '../stopped-search.js';
import { inSlices } from './messages/pause.js';

interface Search {
  readonly work: Work;
  readonly steps: Generator<undefined, readonly Repair[]>;
  found?: readonly Repair[];
}

/**
 * The repairs of a circuit; none where the question is taken back, and the next question goes on from there. `tell` is called once where the search
 * was stopped before it was through.
 */
export async function repairsOf(
  circuit: AnalysedCircuit,
  token: CancellationToken,
  report: (text: string) => void,
): Promise<readonly Repair[]> {
  const search = derive(circuit, started);
  await inSlices(goOn(search, report), () => token.isCancellationRequested);
  return search.found ?? [];
}

const started = derivation(['text'], (circuit): Search => {
  const work = createWork(usualWork);
  return { work, steps: repairSteps(circuit, { work }) };
});

/** Goes on with a search, which several questions may do in turn. */
function* goOn(search: Search, report: (text: string) => void): Generator<undefined, void> {
  while (search.found === undefined) {
    const step = search.steps.next();
    if (step.done === true) {
      search.found = step.value;
      if (search.work.isSpent) report(stoppedFixes(step.value.length));
    } else yield;
  }
}
