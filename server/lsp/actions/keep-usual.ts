/** Writes what such a circuit usually gives as expectations, where none are written yet. */
import { CodeActionKind } from 'vscode-languageserver';
import { usualText } from '../../../language/intent/index.js';
import { insertStatements } from '../insertions.js';
import type { MakeActions } from './action.js';

export const keepUsual: MakeActions = ({ at, usual }) => {
  if (usual === undefined) return [];
  const lines = usual.lines.map(({ line }) => line);
  return [
    {
      title: `keep what such a circuit usually gives as expectations: ${usualText(usual)}`,
      kind: CodeActionKind.RefactorRewrite,
      edit: { changes: { [at.uri]: [insertStatements(at, lines, ['expect'])] } },
    },
  ];
};
