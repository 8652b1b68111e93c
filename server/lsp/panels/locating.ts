/** What the readings of a circuit tell, found a slice at a time and kept with the circuit. */
import type { CancellationToken } from 'vscode-languageserver';
import type { AnalysedCircuit, Circuit } from '../../../language/circuit/index.js';
import { locateSteps, type Located } from '../../../language/intent/index.js';
import { inSlices } from '../messages/pause.js';

const kept = new WeakMap<Circuit, Located>();

/** Undefined where the question is taken back. */
export async function locatedOf(circuit: AnalysedCircuit, token: CancellationToken): Promise<Located | undefined> {
  const known = kept.get(circuit);
  if (known !== undefined) return known;
  const located = await inSlices(locateSteps(circuit), () => token.isCancellationRequested);
  if (located !== undefined) kept.set(circuit, located);
  return located;
}
