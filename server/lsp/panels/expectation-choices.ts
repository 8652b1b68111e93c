/** Ways to state what a circuit should do: its current behaviour, or a pattern of the trade. */
import type { AnalysedCircuit } from '../../../language/circuit/index.js';
import { fitsPattern, linesOfNowSteps, linesOfPatternSteps, patterns } from '../../../language/intent/index.js';
import type { Steps } from '../../../language/steps.js';
import type { ExpectationChoice } from '../../protocol.js';
import { insertStatements } from '../insertions.js';
import type { Snapshot } from '../workspace.js';

/** Nobody reads more lines at once. */
export const mostLines = 64;

/** None for a library, for a circuit without a jack, and where there are too many positions to list. */
export function* choiceSteps(at: Snapshot): Steps<ExpectationChoice[]> {
  const { circuit } = at;
  if (circuit.isLibrary || circuit.output === undefined) return [];
  const choices: ExpectationChoice[] = [];
  const add = (title: string, detail: string, lines: readonly string[]): void => {
    if (lines.length === 0 || lines.length > mostLines) return;
    const { range, newText } = insertStatements(at, lines, ['expect']);
    choices.push({ title, detail, lines, edit: { range, text: newText } });
  };
  add(
    'current behaviour',
    'what each position sounds and reads like now: check the lines before you keep them',
    yield* linesOfNowSteps(circuit, { most: mostLines }),
  );
  add(
    'current behaviour, with the pots turned',
    'also readings and peaks at half rotation and turned down',
    yield* linesOfNowSteps(circuit, { most: mostLines, turns: true }),
  );
  for (const { names, title, says } of fittingPatterns(circuit)) {
    const made = yield* linesOfPatternSteps(circuit, names, undefined, mostLines);
    if (!('problem' in made)) add(title, says, made.lines);
  }
  return choices;
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
