/** A long life: very many edits of one text in one project, with the heap looked at on the way. */
import { createAnalysis } from '../../language/analysis.js';
import { createProject } from '../../language/project.js';
import { generateCircuit } from '../bench/circuits.js';
import { createDice } from '../electrics/random-circuit.js';

export interface Soak {
  readonly edits: number;
  /** Heap in use after a collection, megabytes: after a tenth of the edits, and at the end. */
  readonly early: number;
  readonly late: number;
}

/** Edits of a circuit of 30 parts, each parsed and lowered, every tenth checked whole; needs `--expose-gc`. */
export function soak(edits: number, seed = 1): Soak {
  const uri = 'soak:/circuit.lug';
  const dice = createDice(seed);
  const project = createProject({ read: () => '' });
  const analysis = createAnalysis(project);
  const base = generateCircuit(30).split('\n');
  let lines = base;
  let early = 0;
  for (let edit = 0; edit < edits; edit++) {
    const at = Math.floor(dice.next() * lines.length);
    const line = lines[at]!;
    const changed = dice.pick([
      () => line.replace(/\d+(?=[nk]|\.)/, () => String(Math.floor(dice.next() * 900) + 1)),
      () => `${line} // ${edit}`,
      () => line.slice(0, Math.floor(dice.next() * line.length)),
      () => `${line}\nwire volume1.${1 + Math.floor(dice.next() * 3)} to tone1.${1 + Math.floor(dice.next() * 3)}`,
    ])();
    lines = [...lines.slice(0, at), ...changed.split('\n'), ...lines.slice(at + 1)];
    // A text that has lost its sense begins anew.
    if (edit % 40 === 39) lines = base;
    project.update(uri, lines.join('\n'));
    const circuit = analysis.circuit(uri)!;
    if (edit % 10 === 0) analysis.findings(circuit);
    if (edit === Math.floor(edits / 10)) early = heap();
  }
  return { edits, early, late: heap() };
}

function heap(): number {
  (globalThis as { gc?: () => void }).gc?.();
  return process.memoryUsage().heapUsed / 1e6;
}
