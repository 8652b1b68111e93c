/** The circuit that a command without a choice means. */
import { window, type Uri } from 'vscode';

/** That of the active editor; where a panel has the keyboard, the first circuit that is still in sight. */
export function activeCircuit(): Uri | undefined {
  const editors = window.activeTextEditor === undefined ? window.visibleTextEditors : [window.activeTextEditor];
  return editors.find(({ document }) => document.languageId === 'lugwork')?.document.uri;
}
