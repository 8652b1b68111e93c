/** Runs `lugwork check` on the open folder; what it finds goes to the problems. */
import { tasks, window } from 'vscode';
import type { Command } from './command.js';

export const checkFolder: Command = {
  id: 'lugwork.checkFolder',
  run: async () => {
    const [task] = await tasks.fetchTasks({ type: 'lugwork' });
    if (task === undefined) await window.showInformationMessage('Open a folder first: its circuits are what is checked.');
    else await tasks.executeTask(task);
  },
};
