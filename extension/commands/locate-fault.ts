/** Shows beside the circuit what its readings tell: suspects, the reading to take next, where to put the probes. */
import { l10n, Uri, ViewColumn, window, workspace } from 'vscode';
import { activeCircuit } from '../active-circuit.js';
import { locatedUri } from '../located.js';
import type { Command } from './command.js';

export const locateFault: Command = {
  id: 'lugwork.locateFault',
  run: async (_, asked) => {
    const circuit = typeof asked === 'string' ? Uri.parse(asked) : activeCircuit();
    if (circuit === undefined) {
      await window.showInformationMessage(l10n.t('Open a circuit first. The search uses its `measured` lines.'));
      return;
    }
    const document = await workspace.openTextDocument(locatedUri(circuit));
    await window.showTextDocument(document, { viewColumn: ViewColumn.Beside, preserveFocus: true, preview: true });
  },
};
