/** Copies the lugs of the part at the cursor, a line each as a wire names them: the client has the clipboard. */
import { CodeActionKind } from 'vscode-languageserver';
import { lugById } from '../../../language/circuit/index.js';
import { statementAt } from '../places.js';
import type { MakeActions } from './action.js';

/** Its kind, by which a client may ask for it alone. */
export const copyKind = `${CodeActionKind.Refactor}.copy`;

export const copyLugs: MakeActions = ({ at, range, copiesLugs }) => {
  const statement = copiesLugs ? statementAt(at.tree, range.start) : undefined;
  if (statement?.kind !== 'part') return [];
  return statement.names.flatMap(({ text: name }) => {
    const part = at.circuit.parts.find((one) => one.name === name && one.parent === undefined);
    if (part === undefined || part.lugs.length === 0) return [];
    const lugs = part.lugs.map((id) => lugById(at.circuit, id).label);
    const title = `copy the lugs of ${name}`;
    return [{ title, kind: copyKind, command: { title, command: 'lugwork.copyLugs', arguments: [lugs.join('\n')] } }];
  });
};
