/** At a reading: the next one to take, the values that readings give, and the wires that they prove. */
import { CodeActionKind, type CodeAction, type TextEdit } from 'vscode-languageserver';
import { insertStatements } from '../insertions.js';
import { statementAt } from '../places.js';
import type { MakeActions } from './action.js';

export const takeReading: MakeActions = ({ at, range, located }) => {
  if (located === undefined || statementAt(at.tree, range.start)?.kind !== 'measured') return [];
  const { uri } = at;
  const action = (title: string, edit: TextEdit): CodeAction => ({
    title,
    kind: CodeActionKind.RefactorRewrite,
    edit: { changes: { [uri]: [edit] } },
  });
  const reading = (line: string): CodeAction => {
    const taken = line.replace(/ : reads …$/, '').replace(/^measured ?/, '');
    const title = `take the next reading${taken === '' ? ' at the jack' : `: ${taken}`}`;
    return action(title, insertStatements(at, [line.replace('…', '?')], ['measured']));
  };
  const wires = located.proofs.map(({ line }) => line);
  return [
    ...(located.next === undefined ? [] : [reading(located.next.line)]),
    ...located.probes.map(reading),
    ...(wires.length === 0 ? [] : [action(wiresSaid(wires), insertStatements(at, wires, ['wire', 'solder', 'part']))]),
    ...located.estimates.flatMap(({ part, text, range: place }) =>
      place === undefined || place.uri !== uri
        ? []
        : [
            action(`write the value that the readings give: ${part} ${text}`, {
              range: { start: place.start, end: place.end },
              newText: text,
            }),
          ],
    ),
  ];
};

function wiresSaid(wires: readonly string[]): string {
  const [only, more] = wires;
  return only !== undefined && more === undefined
    ? `write what the readings prove: ${only}`
    : `write the ${wires.length} wires that the readings prove`;
}
