/** `npm run bench -- growth`: how the processor's time grows with each kind of growth, stage by stage, and by what power. */
import { readFileSync } from 'node:fs';
import { rules } from '../../language/checks/index.js';
import { findings } from '../../language/findings.js';
import { lower } from '../../language/circuit/index.js';
import { createTextParser, formatText } from '../../language/grammar/index.js';
import type { Table } from '../../server/command/output/table.js';
import { copiesOf } from './copies.js';
import { costOf, exponentOf, type Cost } from './growth.js';
import { growing, type Growing } from './growing-texts.js';
import { milliseconds } from './timing.js';

export const growthSizes = [500, 1000, 2000, 4000] as const;

const stages = ['parse', 'lower', 'check', 'format'] as const;
/** Milliseconds of processor time: after a size that took longer no larger one is tried. */
const patience = 6_000;
/** Milliseconds that a size must take together before its least run counts. */
const enough = 150;
const mostRuns = 5;

const folder = 'bench:/';

/** A row for each kind: the time of each size, the exponent, and the exponents of the stages. `report` gets each row as soon as it is measured. */
export function growthTable(
  sizes: readonly number[] = growthSizes,
  only: (kind: Growing) => boolean = () => true,
  report: (row: readonly string[]) => void = () => undefined,
): Table {
  const heads = ['what grows', ...sizes.map(String), 'exponent', ...stages];
  const rows = [...growing, ...ruleKinds()].filter(only).map((kind) => {
    const row = growthRow(kind, sizes);
    report(row);
    return row;
  });
  return { heads, rows };
}

/** The faulty example of each rule's page, so many times that it has about so many statements. */
function ruleKinds(): readonly Growing[] {
  return rules.map(({ id, page }) => {
    const example = /```lug\n([^]*?)```/.exec(readFileSync(page, 'utf8'))![1]!;
    const statements = example.split('\n').filter(Boolean).length;
    return { name: `copies of the example of ${id}`, text: (size) => copiesOf(example, Math.ceil(size / statements)) };
  });
}

export function growthRow(kind: Growing, sizes: readonly number[]): string[] {
  const measured: { readonly size: number; readonly costs: readonly number[] }[] = [];
  for (const size of sizesOf(kind, sizes)) {
    const costs = leastOf(() => stagesOf(kind, size));
    measured.push({ size, costs });
    if (total(costs) > patience) break;
  }
  const exponent = (figures: readonly number[]): string =>
    measured.length < 2
      ? '-'
      : exponentOf(
          measured.map(({ size }) => size),
          figures.map((figure) => Math.max(figure, 0.01)),
        ).toFixed(2);
  const cells = sizesOf(kind, sizes).map((_, i) =>
    measured[i] === undefined ? 'not tried' : milliseconds(total(measured[i].costs)),
  );
  return [
    kind.name,
    ...cells,
    exponent(measured.map(({ costs }) => total(costs))),
    ...stages.map(
      (_, stage) => `${milliseconds(measured.at(-1)!.costs[stage]!)} (${exponent(measured.map(({ costs }) => costs[stage]!))})`,
    ),
  ];
}

/** Where the language allows fewer, sizes that double up to what it does. */
function sizesOf({ most = Infinity }: Growing, sizes: readonly number[]): readonly number[] {
  const largest = sizes.at(-1)!;
  return most >= largest ? sizes : sizes.map((size) => Math.round((size * most) / largest));
}

function stagesOf(kind: Growing, size: number): readonly Cost[] {
  const texts = new Map([...(kind.others?.(size) ?? [])].map(([path, text]) => [folder + path, text]));
  const text = kind.text(size);
  const uri = `${folder}circuit.lug`;
  const parser = createTextParser();
  const [tree, parse] = timed(() => {
    for (const [other, read] of texts) parser.parse(other, read);
    return parser.parse(uri, text);
  });
  const sources = { tree: (other: string) => (texts.has(other) ? parser.parse(other, texts.get(other)!) : undefined) };
  const [circuit, lowered] = timed(() => lower(tree, sources));
  const [, checked] = timed(() => findings(circuit));
  const [, formatted] = timed(() => formatText(text));
  return [parse, lowered, checked, formatted];
}

function timed<T>(work: () => T): [T, Cost] {
  let made: T | undefined;
  const cost = costOf(() => {
    made = work();
  });
  return [made!, cost];
}

/** Each stage's least processor time of several runs; of one where that took long. */
function leastOf(run: () => readonly Cost[]): readonly number[] {
  const runs: (readonly Cost[])[] = [];
  let spent = 0;
  while (runs.length < mostRuns && (runs.length === 0 || spent < enough)) {
    runs.push(run());
    spent += total(runs.at(-1)!.map(({ cpu }) => cpu));
  }
  return stages.map((_, stage) => Math.min(...runs.map((costs) => costs[stage]!.cpu)));
}

function total(figures: readonly number[]): number {
  return figures.reduce((sum, figure) => sum + figure, 0);
}
