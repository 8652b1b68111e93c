/** What the readings of a circuit tell, found a slice at a time and kept with the circuit. */
import type { CancellationToken } from 'vscode-languageserver';
import { deriveSteps, steppedDerivation, type AnalysedCircuit } from '../../../language/circuit/index.js';
import { locateSteps, type Located } from '../../../language/intent/index.js';
import type { Steps } from '../../../language/steps.js';
import { inSlices } from '../messages/pause.js';

/** Undefined where the question is taken back. */
export async function locatedOf(circuit: AnalysedCircuit, token: CancellationToken): Promise<Located | undefined> {
  return await inSlices(deriveSteps(circuit, located), () => token.isCancellationRequested);
}

const located = steppedDerivation(['text'], (circuit): Steps<Located> => locateSteps(circuit));
