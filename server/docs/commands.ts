/** What the command's help says, for the reference. */
import { commands } from '../command/commands/index.js';
import { commandHelp, overview } from '../command/help.js';

export function commandTable(): string {
  return [overview(commands), ...commands.map(commandHelp)].map((text) => `\`\`\`text\n${text.trimEnd()}\n\`\`\``).join('\n\n');
}
