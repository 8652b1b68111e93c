/** Shows what client and server have to say. */
import type { Command } from './command.js';

export const showOutput: Command = {
  id: 'lugwork.showOutput',
  run: async (link) => link.output.show(),
};
