/** Writes `expect` lines by a pattern of the trade, where nothing is expected yet. */
import { partById } from '../../../language/circuit/model.js';
import { CodeActionKind } from 'vscode-languageserver';
import { linesOfPatternSteps } from '../../../language/intent/index.js';
import { fittingPatterns, mostLines } from '../panels/expectation-choices.js';
import { statementAt } from '../places.js';
import type { DeferredAction } from './action.js';
import { mergedLines } from './merged-lines.js';
import { capitalised } from '../../../language/words.js';

export const writePattern: DeferredAction = {
  offer({ at: { circuit, tree, uri }, range }) {
    if (circuit.expectations.some((line) => line.range.uri === uri)) return [];
    const statement = statementAt(tree, range.start);
    const isSwitch =
      statement?.kind === 'part' &&
      circuit.switches.some((device) => statement.names.some(({ text }) => text === partById(circuit, device.part).name));
    if (statement?.kind !== 'instrument' && !isSwitch) return [];
    return fittingPatterns(circuit).map(({ names, title }) => ({
      title: `write expectations ${title}`,
      kind: CodeActionKind.RefactorRewrite,
      about: names.join(' '),
    }));
  },
  *edit({ circuit, uri }, about, { project }) {
    const made = yield* linesOfPatternSteps(circuit, about.split(' '), undefined, mostLines);
    if ('problem' in made) return `${capitalised(made.problem)}.`;
    return mergedLines(project, uri, made.lines, 'pattern');
  },
};
