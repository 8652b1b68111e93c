/** Runs `lugwork check` on the open folder; what it finds goes to the problems. */
import { l10n, tasks, window } from 'vscode';
import type { Command } from './command.js';

export const checkFolder: Command = {
  id: 'lugwork.checkFolder',
  run: async () => {
    const [task] = await tasks.fetchTasks({ type: 'lugwork' });
    if (task === undefined) await window.showInformationMessage(l10n.t('Open a folder first. Its circuits are then checked.'));
    else await tasks.executeTask(task);
  },
};
