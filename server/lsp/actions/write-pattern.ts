/** Writes `expect` lines by a pattern of the trade, where nothing is expected yet. */
import { CodeActionKind } from 'vscode-languageserver';
import { expectationChoices } from '../expectation-choices.js';
import { statementAt } from '../places.js';
import type { MakeActions } from './action.js';

export const writePattern: MakeActions = ({ at, range }) => {
  const { circuit, uri } = at;
  if (circuit.expectations.some((line) => line.range.uri === uri)) return [];
  const statement = statementAt(at.tree, range.start);
  const isSwitch =
    statement?.kind === 'part' &&
    circuit.switches.some((device) => statement.names.some(({ text }) => text === circuit.parts[device.part]!.name));
  if (statement?.kind !== 'instrument' && !isSwitch) return [];
  return expectationChoices(at)
    .filter(({ title }) => title.startsWith('by '))
    .map(({ title, edit }) => ({
      title: `write expectations ${title}`,
      kind: CodeActionKind.RefactorRewrite,
      edit: { changes: { [uri]: [{ range: edit.range, newText: edit.text }] } },
    }));
};
