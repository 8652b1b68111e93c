/** Stops the server and starts it anew. */
import type { Command } from './command.js';

export const restartServer: Command = {
  id: 'lugwork.restartServer',
  run: (link) => link.restart(),
};
