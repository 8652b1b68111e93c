/** A hover works out what it shows and no more: counted in steps and in units of work, on a circuit of which nothing is solved yet. */
import { expect, test } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { createAnalysis } from '../../language/analysis.js';
import { analysed } from '../../language/circuit/index.js';
import { enumerate, responseSummary, restingSetting } from '../../language/electrics/index.js';
import { createProject } from '../../language/project.js';
import { createWork } from '../../language/work.js';
import { hoverSteps } from '../../server/lsp/hover/index.js';
import { generateCircuit } from '../bench/circuits.js';

const uri = 'memory:/a.lug';
const text = generateCircuit(30).replace(/^expect .*$/gm, '');

/** The circuit with a counter of its work. */
function counted() {
  const project = createProject({ read: () => undefined });
  project.update(uri, text);
  const circuit = analysed(project.circuit(uri)!, { work: createWork(Number.MAX_SAFE_INTEGER) });
  return { project, circuit, analysis: createAnalysis(project) };
}

/** Steps and units of work of a hover on the name of a part. */
function hovered(part: string) {
  const { project, circuit, analysis } = counted();
  const line = text.split('\n').findIndex((one) => one.startsWith(`part ${part} `));
  const at = { uri, text, circuit, tree: project.tree(uri)!, document: TextDocument.create(uri, 'lugwork', 0, text) };
  const steps = hoverSteps(at, { line, character: 6 }, analysis);
  for (let count = 0; ; count++) {
    const step = steps.next();
    if (step.done === true) return { count, spent: circuit.analysis.work!.spent, markdown: step.value!.markdown };
  }
}

test('of a jack nothing is solved: the joints are folded once, for the usual way in which it is wired', () => {
  const { lugs, joints } = counted().circuit;
  const { count, spent, markdown } = hovered('output');
  expect(markdown).toContain('`output`');
  expect(count).toBe(0);
  expect(spent).toBe(lugs.length + joints.length);
});

/** Units of work that one response takes. */
function responseWork(): number {
  const { circuit } = counted();
  responseSummary(circuit, restingSetting(circuit));
  return circuit.analysis.work!.spent;
}

test('of a switch only its own positions are solved, with the other switches in their first', () => {
  const { groups } = enumerate(counted().circuit);
  expect(groups).toBe(8);
  const { spent, markdown } = hovered('mode1');
  expect(markdown.match(/^\| `(series|parallel)`/gm)).toHaveLength(2);
  // Two responses of eight, and as much again at most for sound and reading.
  expect(spent).toBeLessThan(4 * responseWork());
});

test('of a capacitor a whole response is worked out only where it is shown', () => {
  const { groups } = enumerate(counted().circuit);
  // It is compared at three rotations in each group; only three responses are shown.
  expect(hovered('tone1-cap').spent).toBeLessThan(1.5 * groups * responseWork());
});
