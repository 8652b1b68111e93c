/** `npm run bench -- scale`: how time and memory grow from circuits of ten parts to a thousand, and from ten files that share one to two hundred. */
import { createAnalysis, type Analysis } from '../../language/analysis.js';
import { createProject, type Project } from '../../language/project.js';
import type { Table } from '../../server/command/output/table.js';
import { generateCircuit, type Generate } from './circuits.js';
import { costOf, costText, growthRows, heldMegabytes, least, type Cost } from './growth.js';

/** Numbers of files in a workspace, the shared one not counted. */
export const workspaceSizes = [10, 30, 100, 200] as const;

const uri = 'bench:/circuit.lug';
const house = 'bench:/house.lug';
/** Parts of each circuit of the workspace: a humbucker, a single-coil, their controls, what is common. */
const partsOfOne = 16;
/** Milliseconds that may be spent on each run asked for but the first, and the most runs made of them. */
const perRun = 1500;
const mostRuns = 100;
/** Runs in which memory is weighed. */
const weighings = 3;

/** One edit of the generated text, as a typing user makes it. */
const edits: Readonly<Record<string, (text: string) => string>> = {
  comment: (text) => `${text}// measured again\n`,
  colour: (text) => text.replace('wire master.2 to output.tip white', 'wire master.2 to output.tip red'),
  value: (text) => text.replace('part master : pot 500k', 'part master : pot 470k'),
  wire: (text) => text.replace(/wire volume(\S*)1\.2 to tone/, 'wire volume$11.3 to tone'),
  part: (text) => text.replace('part saddle', 'part load : resistor 1M across output.tip and output.sleeve\npart saddle'),
};

/** A line for each size of circuit: first and all findings of a text never seen, all findings after each edit, megabytes held. */
export function circuitScale(sizes: readonly number[], runs: number, generate: Generate = generateCircuit): Table {
  const heads = ['parts', 'first findings', 'all findings', ...Object.keys(edits).map((edit) => `after ${edit}`), 'MB'];
  const lines = sizes.map((size) => measured(runs, (run, memory) => circuitRun(fresh(generate(size, size + run), run), memory)));
  return tableOf(heads, sizes, lines);
}

/** A line for each number of files that use a shared one: the first file's findings, those of all, those after an edit in one and in the shared one, megabytes held. */
export function workspaceScale(sizes: readonly number[], runs: number): Table {
  const heads = ['files', 'first file', 'all findings', 'edit in one', 'edit in the shared one', 'MB'];
  const lines = sizes.map((size) => measured(runs, (run, memory) => workspaceRun(workspaceTexts(size, run), memory)));
  return tableOf(heads, sizes, lines);
}

interface Measured {
  readonly costs: readonly Cost[];
  readonly held: number;
}

/**
 * The least of `runs` runs, of more while they are quick, since the engine is slow with what it has seldom run. The middle of what was held
 * in runs of their own before: a collection in full throws away what the engine has compiled, so it must not come between timed runs.
 */
function measured(runs: number, measure: (run: number, memory: () => number) => Measured): Measured {
  const weighed = Array.from({ length: weighings }, (_, run) => measure(run, heldMegabytes).held).sort((a, b) => a - b);
  const all: Measured[] = [];
  const until = performance.now() + (runs - 1) * perRun;
  while (all.length < runs || (all.length < mostRuns && performance.now() < until))
    all.push(measure(weighings + all.length, () => 0));
  return {
    costs: all[0]!.costs.map((_, i) => least(all.map(({ costs }) => costs[i]!))),
    held: weighed[Math.floor(weighings / 2)]!,
  };
}

function circuitRun(text: string, memory: () => number): Measured {
  const before = memory();
  const { project, analysis } = open(new Map());
  const first = costOf(() => {
    project.update(uri, text);
    return analysis.circuit(uri)!.problems;
  });
  const rest = costOf(() => findingsOf(analysis, uri));
  const held = memory() - before;
  let written = text;
  const after = Object.entries(edits).map(([name, edit]) => {
    const edited = edit(written);
    if (edited === written) throw new Error(`The edit of a ${name} finds no place in the generated text`);
    written = edited;
    return costOf(() => {
      project.update(uri, edited);
      findingsOf(analysis, uri);
    });
  });
  const all = { wall: first.wall + rest.wall, cpu: first.cpu + rest.cpu };
  return { costs: [first, all, ...after], held };
}

function workspaceRun(texts: ReadonlyMap<string, string>, memory: () => number): Measured {
  const before = memory();
  const { project, analysis } = open(texts);
  const files = [...texts.keys()].filter((file) => file !== house);
  const checkAll = (): void => files.forEach((file) => findingsOf(analysis, file));
  const first = costOf(() => findingsOf(analysis, files[0]!));
  const rest = costOf(checkAll);
  const held = memory() - before;
  const last = files.at(-1)!;
  const one = costOf(() => {
    project.update(last, edits.value!(texts.get(last)!));
    findingsOf(analysis, last);
  });
  const shared = costOf(() => {
    project.update(house, texts.get(house)!.replace('680pF', '820pF'));
    checkAll();
  });
  return { costs: [first, { wall: first.wall + rest.wall, cpu: first.cpu + rest.cpu }, one, shared], held };
}

function open(texts: ReadonlyMap<string, string>): { readonly project: Project; readonly analysis: Analysis } {
  const project = createProject({ read: (file) => texts.get(file) });
  return { project, analysis: createAnalysis(project) };
}

function findingsOf(analysis: Analysis, file: string): unknown {
  return analysis.findings(analysis.circuit(file)!);
}

/** Circuits of which each has a part of the shared file's type across its first volume. */
function workspaceTexts(files: number, run: number): ReadonlyMap<string, string> {
  const bleed = 'part bleed : house-bleed\nsolder bleed.top to volume';
  const shared = [
    'type house-bleed : assembly {',
    '  lugs top bottom',
    '  part c : capacitor 680pF from top to bottom',
    '  part r : resistor 150k from top to bottom',
    '}',
    '',
  ].join('\n');
  const circuits = Array.from({ length: files }, (_, n) => {
    const text = generateCircuit(partsOfOne, 1000 * run + n);
    const using = `use "house.lug"\n\n${text}${bleed}1.3\nsolder bleed.bottom to volume1.2\n`;
    return [`bench:/no-${n + 1}.lug`, fresh(using, run * files + n)] as const;
  });
  return new Map([...circuits, [house, shared]]);
}

/** The same circuit under other names, so that hardly a statement has been parsed before. */
function fresh(text: string, run: number): string {
  return text.replace(/\b(pickup|mode|volume|tone|bypass)(?=\d)/g, `$1-r${run}n`);
}

function tableOf(heads: readonly string[], sizes: readonly number[], lines: readonly Measured[]): Table {
  const rows = lines.map(({ costs, held }, i) => [String(sizes[i]), ...costs.map(costText), held.toFixed(1)]);
  const columns = [
    ...lines[0]!.costs.map((_, column) => lines.map(({ costs }) => costs[column]!.cpu)),
    lines.map(({ held }) => held),
  ];
  return { heads, rows: sizes.length < 2 ? rows : [...rows, ...growthRows(sizes, columns)] };
}
