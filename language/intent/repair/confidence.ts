/** How much is known of a repair: whether it is the only one, and whether what is expected confirms it. */
import { factsOf } from '../../checks/index.js';
import type { AnalysedCircuit } from '../../circuit/model.js';
import { outputsOf } from '../../electrics/index.js';
import type { Confidence } from '../../source.js';
import type { Cure } from './examine.js';
import { isCurable } from './weigh.js';

/** The confidence of the likeliest of the repairs; `isOnly` where a search that came to its end has found no other. */
export function confidenceOfFirst(circuit: AnalysedCircuit, { changes, left }: Cure, isOnly: boolean): Confidence {
  if (changes.length > 1 || left.some(isCurable) || circuit.expectations.length === 0) return 'possible';
  return isOnly && isStated(circuit) ? 'sure' : 'likely';
}

/** True where an expectation says for every position what sounds, or that it is silent. With a second output too little is known of what it should give. */
function isStated(circuit: AnalysedCircuit): boolean {
  const facts = factsOf(circuit);
  const isSaid = facts.settings().every((one) => facts.intended.asksSound(one) || facts.intended.asksSilence(one));
  return isSaid && facts.triedAll() && outputsOf(circuit).length === 1;
}
