/** Two texts compared, as a host does it. */
import { compare, changeLines, type Change } from '../../language/compare/index.js';
import type { AnalysedCircuit } from '../../language/circuit/index.js';
import { foundIn } from '../../language/findings.js';
import { createProject } from '../../language/project.js';

export function circuitOf(text: string, uri = 'file:///bench/circuit.lug'): AnalysedCircuit {
  return createProject({ read: (asked) => (asked === uri ? text : undefined) }).circuit(uri)!;
}

export function compareCircuits(before: AnalysedCircuit, after: AnalysedCircuit): Change {
  return compare(foundIn(before), foundIn(after));
}

export function compareTexts(before: string, after: string): Change {
  return compareCircuits(circuitOf(before), circuitOf(after));
}

export function linesOf(before: string, after: string): readonly string[] {
  return changeLines(compareTexts(before, after));
}
