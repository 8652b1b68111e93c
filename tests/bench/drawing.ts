/** The drawing's figures: how each example is drawn and how long it takes, and how much of it moves at a small edit. */
import type { AnalysedCircuit } from '../../language/circuit/model.js';
import { createDrawer, papers, printPages, type Drawing, type DrawOptions, type Scene } from '../../language/drawing/index.js';
import { elkLayout } from '../../server/elk.js';
import { edits } from '../drawing/edits.js';
import { sharedStretches } from '../drawing/judge.js';
import { detoursOf, figuresOf, isJackAtEdge, movedShare, pickupsOutOfOrder } from '../drawing/measure.js';
import { circuitOf, circuitOfText, examples } from '../drawing/support.js';
import { drawPractice } from '../practice/index.js';
import { generateCircuit } from './circuits.js';
import { milliseconds } from './timing.js';

/** Parts that went farther than this are counted as moved: one step of the grid. */
const step = 12;

export const figureHeads = [
  'example',
  'wires',
  'crossings',
  'bends',
  'over labels',
  'labels clash',
  'too near',
  'length',
  'sheet',
  'aspect',
  'first ms',
  'again ms',
];

/** One row an example, then the sums. The first drawing of all is told apart: it pays for starting the layout. */
export async function figureRows(options: DrawOptions = {}): Promise<string[][]> {
  const rows: { readonly name: string; readonly figures: ReturnType<typeof figuresOf>; readonly times: readonly number[] }[] = [];
  for (const name of examples) {
    const circuit = circuitOf(name);
    const drawer = createDrawer(elkLayout);
    const [scene, first] = await timed(() => drawer.draw(circuit, options).then((drawing) => drawing.scene));
    const [, again] = await timed(() => drawer.draw(circuit, options));
    rows.push({ name, figures: figuresOf(scene), times: [first, again] });
  }
  const sum = (figure: 'wires' | 'crossings' | 'bends' | 'overLabels' | 'labelClashes' | 'tooNear' | 'length'): string =>
    String(rows.reduce((total, { figures }) => total + figures[figure], 0));
  return [
    ...rows.map(({ name, figures, times }) => [
      name,
      String(figures.wires),
      String(figures.crossings),
      String(figures.bends),
      String(figures.overLabels),
      String(figures.labelClashes),
      String(figures.tooNear),
      String(figures.length),
      `${figures.width} × ${figures.height}`,
      (figures.width / figures.height).toFixed(2),
      ...times.map(milliseconds),
    ]),
    [
      'together',
      sum('wires'),
      sum('crossings'),
      sum('bends'),
      sum('overLabels'),
      sum('labelClashes'),
      sum('tooNear'),
      sum('length'),
      '',
      '',
      ...[0, 1].map((index) => milliseconds(rows.reduce((total, { times }) => total + times[index]!, 0))),
    ],
  ];
}

/** Circuits that no drawing was tuned on, drawn from the grammar of practice. */
const drawnSeeds = Array.from({ length: 200 }, (_, index) => 2001 + index);

export const measureHeads = ['measure', 'examples', `${drawnSeeds.length} drawn circuits`, 'goal'];

/** What a drawing is held to, over the examples and over circuits that nothing was tuned on. */
export async function measureRows(drawOne: (circuit: AnalysedCircuit) => Promise<Drawing> = drawAlone): Promise<string[][]> {
  const sets = [examples.map((name) => circuitOf(name)), drawnSeeds.map((seed) => circuitOfText(drawPractice(seed).text))];
  const columns: string[][] = [];
  for (const circuits of sets) {
    const drawings: Drawing[] = [];
    for (const circuit of circuits) drawings.push(await drawOne(circuit));
    columns.push(measuresOf(drawings));
  }
  return measures.map(({ what, goal }, index) => [what, ...columns.map((column) => column[index]!), goal]);
}

function drawAlone(circuit: AnalysedCircuit): Promise<Drawing> {
  return createDrawer(elkLayout).draw(circuit);
}

const measures: readonly { readonly what: string; readonly goal: string }[] = [
  { what: 'wires over a foreign lug, a letter or a label', goal: '0' },
  { what: 'drawings with any', goal: '0' },
  { what: 'pairs of wires on one line, bundles at their lug excepted', goal: '0' },
  { what: 'length by the straight distance, the middle wire', goal: '≤ 1.25' },
  { what: 'the worst wire', goal: '≤ 2' },
  { what: 'smallest text on A4, the middle drawing', goal: '≥ 6 pt' },
  { what: 'drawings with less than 6 pt', goal: '0' },
  { what: 'pages of A4, the middle drawing', goal: 'reported' },
  { what: 'the most pages', goal: 'reported' },
  { what: 'pickups out of order', goal: '0' },
  { what: 'drawings with a jack at no edge', goal: '0' },
  { what: 'crossings a wire', goal: 'reported' },
  { what: 'crossings under 30°, of a hundred', goal: 'reported' },
];

function measuresOf(drawings: readonly Drawing[]): string[] {
  const scenes = drawings.map(({ scene }) => scene);
  const figures = scenes.map(figuresOf);
  const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
  const over = figures.map(({ overLugs, overLabels }) => overLugs + overLabels);
  const wires = sum(figures.map((one) => one.wires));
  const crossings = sum(figures.map((one) => one.crossings));
  const ratios = scenes.flatMap(detoursOf).sort((a, b) => a - b);
  const pages = drawings.map((drawing) => printPages(drawing, { paper: papers.a4 }));
  const texts = pages.map((own) => Math.min(...own.map(({ points }) => points))).sort((a, b) => a - b);
  const counts = pages.map(({ length }) => length).sort((a, b) => a - b);
  return [
    `${sum(over)} of ${wires}`,
    String(over.filter((count) => count > 0).length),
    String(sum(scenes.map((scene) => sharedStretches(scene).length))),
    (ratios[Math.floor(ratios.length / 2)] ?? 1).toFixed(2),
    (ratios.at(-1) ?? 1).toFixed(2),
    `${(texts[Math.floor(texts.length / 2)] ?? 0).toFixed(1)} pt`,
    String(texts.filter((points) => points < 6).length),
    String(counts[Math.floor(counts.length / 2)] ?? 1),
    String(counts.at(-1) ?? 1),
    String(sum(scenes.map(pickupsOutOfOrder))),
    String(scenes.filter((scene) => !isJackAtEdge(scene)).length),
    (crossings / wires).toFixed(2),
    ((100 * sum(figures.map((one) => one.sharpCrossings))) / Math.max(1, crossings)).toFixed(1),
  ];
}

export const editHeads = ['edit', 'examples', 'moved, drawn alone', 'moved, drawn after the old one', 'worst'];

/** Share of the parts that moved by more than a grid step, over all examples: the edited text by itself, and after the text before. */
export async function editRows(): Promise<string[][]> {
  const rows: string[][] = [];
  for (const { what, apply } of edits) {
    const alone: number[] = [];
    const after: number[] = [];
    for (const name of examples) {
      const text = apply(name);
      if (text === undefined) continue;
      const drawer = createDrawer(elkLayout);
      const before = (await drawer.draw(circuitOf(name))).scene;
      const edited = circuitOf(name, text);
      const scene = async (by: { draw(circuit: typeof edited): Promise<{ readonly scene: Scene }> }): Promise<Scene> =>
        (await by.draw(edited)).scene;
      after.push(movedShare(before, await scene(drawer), step));
      alone.push(movedShare(before, await scene(createDrawer(elkLayout)), step));
    }
    rows.push([what, String(alone.length), percent(mean(alone)), percent(mean(after)), percent(Math.max(...after))]);
  }
  return rows;
}

export const largeHeads = ['parts', 'wires', 'crossings', 'over labels', 'first ms', 'process ms'];

/** Generated circuits beyond any instrument: what a drawing costs as it grows. */
export async function largeRows(): Promise<string[][]> {
  const rows: string[][] = [];
  for (const parts of [30, 100, 300]) {
    const circuit = circuitOfText(generateCircuit(parts));
    const before = process.cpuUsage();
    const [scene, ms] = await timed(() =>
      createDrawer(elkLayout)
        .draw(circuit)
        .then((drawing) => drawing.scene),
    );
    const { user, system } = process.cpuUsage(before);
    const { wires, crossings, overLabels } = figuresOf(scene);
    rows.push([...[parts, wires, crossings, overLabels].map(String), milliseconds(ms), milliseconds((user + system) / 1000)]);
  }
  return rows;
}

async function timed<T>(work: () => Promise<T>): Promise<[T, number]> {
  const began = performance.now();
  const result = await work();
  return [result, performance.now() - began];
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}
