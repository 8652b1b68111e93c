/** Ways to state what a circuit should do: its current behaviour, or a pattern of the trade. */
import { partById, type AnalysedCircuit } from '../../../language/circuit/index.js';
import type { Statement } from '../../../language/grammar/index.js';
import {
  fitsPattern,
  linesOfNowSteps,
  linesOfPatternSteps,
  patterns,
  usualSteps,
  usualText,
  type Usual,
} from '../../../language/intent/index.js';
import { mergedText, mergeExpectations, type Means } from '../../../language/merge-expectations.js';
import type { Project } from '../../../language/project.js';
import type { Steps } from '../../../language/steps.js';
import type { ExpectationChoice } from '../../protocol.js';
import type { Snapshot } from '../workspace.js';

/** Nobody reads more lines at once. */
export const mostLines = 64;

/** None for a library, for a circuit without a jack, and where there are too many positions to list. */
export function* choiceSteps(at: Snapshot, project: Project): Steps<ExpectationChoice[]> {
  const { circuit, uri } = at;
  if (circuit.isLibrary || circuit.output === undefined) return [];
  const choices: ExpectationChoice[] = [];
  const add = (title: string, says: string, lines: readonly string[], means: Means, isUsual = false): void => {
    if (lines.length === 0 || lines.length > mostLines) return;
    const merged = mergeExpectations(project, uri, lines, means);
    if (merged === undefined) return;
    choices.push({
      title,
      detail: circuit.expectations.length === 0 ? says : `${says} (${mergedText(merged)})`,
      lines,
      edits: merged.edits.map(({ range: { start, end }, text: put }) => ({ range: { start, end }, text: put })),
      kept: merged.kept.map(({ range }) => range.start.line),
      isUsual,
    });
  };
  add(
    'current behaviour',
    'what each position sounds and reads like now: check the lines before you keep them',
    yield* linesOfNowSteps(circuit, { most: mostLines }),
    'now',
  );
  add(
    'current behaviour, with the pots turned',
    'also readings and peaks at half rotation and turned down',
    yield* linesOfNowSteps(circuit, { most: mostLines, turns: true }),
    'now',
  );
  const usual = yield* usualSteps(circuit);
  if (usual !== undefined) {
    const lines = usual.lines.map(({ line }) => line);
    add('what such a circuit usually gives', usualText(usual), lines, 'pattern', true);
  }
  for (const { names, title, says } of fittingPatterns(circuit)) {
    const made = yield* linesOfPatternSteps(circuit, names, undefined, mostLines);
    if (!('problem' in made)) add(title, says, made.lines, 'pattern');
  }
  return choices;
}

/** What is usual for a circuit of which nothing is expected yet, and the statement of the switch that chooses; undefined elsewhere. */
export interface UsualAt {
  readonly usual: Usual;
  readonly statement: Statement;
}

/** Solves what each position sounds like, unless there is nothing to be offered anyway. */
export function* usualAtSteps({ circuit, tree, uri }: Snapshot): Steps<UsualAt | undefined> {
  if (circuit.expectations.length > 0) return undefined;
  const usual = yield* usualSteps(circuit);
  if (usual?.selector === undefined || usual.lines.length > mostLines) return undefined;
  const { name, nameRange } = partById(circuit, usual.selector.part);
  const statement =
    nameRange.uri === uri
      ? tree.statements.find((one) => one.kind === 'part' && one.names.some(({ text }) => text === name))
      : undefined;
  return statement === undefined ? undefined : { usual, statement };
}

interface FittingPattern {
  readonly names: readonly string[];
  readonly title: string;
  readonly says: string;
}

/** The patterns that fit the pickups and switches, alone and together with `split`; no setting is enumerated for it. */
export function fittingPatterns(circuit: AnalysedCircuit): readonly FittingPattern[] {
  if (circuit.isLibrary || circuit.output === undefined) return [];
  const alone = patterns.map(({ name, says }) => ({ names: [name], title: `by the pattern “${name}”`, says }));
  const together = patterns
    .filter(({ name }) => name !== 'split')
    .map(({ name }) => ({
      names: [name, 'split'],
      title: `by the patterns “${name}” and “split”`,
      says: 'with a switch that leaves one coil of each pickup',
    }));
  return [...alone, ...together].filter(({ names }) => fitsPattern(circuit, names));
}
