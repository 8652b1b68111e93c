/** Opens a small whole circuit to begin with. It has no file until it is saved. */
import { window, workspace } from 'vscode';
import { starter } from '../starter.js';
import type { Command } from './command.js';

export const newCircuit: Command = {
  id: 'lugwork.newCircuit',
  run: async () => {
    await window.showTextDocument(await workspace.openTextDocument({ language: 'lugwork', content: starter }));
  },
};
