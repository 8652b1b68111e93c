/** A long life: very many edits of one text in one project, with the heap looked at on the way. */
import { createAnalysis } from '../../language/analysis.js';
import { createProject } from '../../language/project.js';
import { generateCircuit } from '../bench/circuits.js';
import { createDice } from '../electrics/random-circuit.js';

/** Edits between two looks at the heap. */
const stretch = 5000;

/**
 * Edits of a circuit of 30 parts, each parsed and lowered, every 25th checked whole; needs `--expose-gc`.
 * Tells the heap in use after a collection, megabytes, after each stretch and at the end.
 */
export function soak(edits: number, seed: number, reported: (edits: number, heap: number) => void): void {
  const uri = 'soak:/circuit.lug';
  const dice = createDice(seed);
  const project = createProject({ read: () => '' });
  const analysis = createAnalysis(project);
  const base = generateCircuit(30).split('\n');
  let lines = base;
  for (let edit = 0; edit < edits; edit++) {
    const at = Math.floor(dice.next() * lines.length);
    const line = lines[at]!;
    const value = () => line.replace(/\d+(?=[nk]|\.)/, () => String(Math.floor(dice.next() * 900) + 1));
    // In every second thousand only values change, so that what is handed on from circuit to circuit has a long line of them.
    const isCalm = Math.floor(edit / 1000) % 2 === 1;
    const kinds = [
      value,
      () => `${line} // ${edit}`,
      () => line.slice(0, Math.floor(dice.next() * line.length)),
      () => `${line}\nwire volume1.${1 + Math.floor(dice.next() * 3)} to tone1.${1 + Math.floor(dice.next() * 3)}`,
    ];
    const changed = isCalm ? value() : dice.pick(kinds)();
    lines = [...lines.slice(0, at), ...changed.split('\n'), ...lines.slice(at + 1)];
    // A text that has lost its sense begins anew.
    if (!isCalm && edit % 40 === 39) lines = base;
    project.update(uri, lines.join('\n'));
    const circuit = analysis.circuit(uri)!;
    if (edit % 25 === 0) analysis.findings(circuit);
    if ((edit + 1) % stretch === 0 || edit + 1 === edits) reported(edit + 1, heap());
  }
}

function heap(): number {
  (globalThis as { gc?: () => void }).gc?.();
  return process.memoryUsage().heapUsed / 1e6;
}
