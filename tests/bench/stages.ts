/** Rows of the benchmark for the stages of the language: from text to findings, whole and after one edit. */
import { lower } from '../../language/circuit/index.js';
import { findings } from '../../language/findings.js';
import { parseText } from '../../language/grammar/index.js';
import { createProject } from '../../language/project.js';
import { sizes, type Generate } from './circuits.js';
import { createColumn, median } from './timing.js';

const uri = 'bench:/circuit.lug';
/** Trees of other files: these circuits use none. */
const noFiles = { tree: () => undefined };

/** One edit of the generated text, as a typing user makes it; each run gets another value, so that nothing is known beforehand. */
const edits: Record<string, (text: string, run: number) => string> = {
  comment: (text, run) => `${text}// ${run}\n`,
  value: (text, run) => text.replace(/(part tone1-cap : capacitor )\d+nF/, `$1${10 + run}nF`),
  wire: (text, run) => text.replace('wire saddle to master.case', `wire saddle to ${run % 2 ? 'volume1' : 'tone1'}.case`),
};

export const stageHeads = [
  'parts',
  'lines',
  'parse',
  'lower',
  'check whole',
  ...Object.keys(edits).map((edit) => `after ${edit}`),
];

/** A line of milliseconds for each size that the family has. */
export function stageRows(generate: Generate, fewest: number): string[][] {
  const columns = stageHeads.slice(2).map(createColumn);
  return sizes
    .filter((size) => size >= fewest)
    .map((size) => {
      const runs = size >= 300 ? 3 : 7;
      // A seed for each run, so that no statement has been seen before.
      const texts = Array.from({ length: runs + 1 }, (_, run) => generate(size, size + run));
      const trees = texts.map((text) => parseText(uri, text));
      const circuits = trees.map((tree) => lower(tree, noFiles));
      const measures = [
        () =>
          median(
            runs,
            (run) => generate(size, 7777 + run),
            (text) => parseText(uri, text),
          ),
        () =>
          median(
            runs,
            (run) => trees[run]!,
            (tree) => lower(tree, noFiles),
          ),
        () =>
          median(
            runs,
            (run) => circuits[run]!,
            (circuit) => findings(circuit),
          ),
        ...Object.values(edits).map((edit) => () => afterEdit(texts[0]!, edit, runs)),
      ];
      return [String(size), String(texts[0]!.split('\n').length), ...measures.map((measure, index) => columns[index]!(measure))];
    });
}

/** Text to findings again in a project that knows the text before the edit. */
function afterEdit(text: string, edit: (text: string, run: number) => string, runs: number): number {
  const project = createProject({ read: () => text });
  findings(project.circuit(uri)!);
  return median(
    runs,
    (run) => edit(text, run),
    (edited) => {
      if (edited === text) throw new Error('The edit finds no place in the generated text.');
      project.update(uri, edited);
      findings(project.circuit(uri)!);
    },
  );
}
