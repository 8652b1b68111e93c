/** `lugwork completion`: a script by which a shell completes the command's words. */
import { firstOf } from '../../../language/collections.js';
import { nearest } from '../../../language/nearest.js';
import { CannotRun, exit, type Command } from '../command.js';
import { bashScript } from '../completion/bash.js';
import { fishScript } from '../completion/fish.js';
import { powershellScript } from '../completion/powershell.js';
import { offeredCommands } from '../completion/words.js';
import { zshScript } from '../completion/zsh.js';

const scripts = { bash: bashScript, zsh: zshScript, fish: fishScript, powershell: powershellScript } as const;

const shells = Object.keys(scripts);

/** Its words are those of all commands, itself among them. */
export function createCompletion(commands: () => readonly Command[]): Command {
  return {
    name: 'completion',
    operands: shells.join('|'),
    arity: [1, 1],
    summary: 'print a script that completes commands, options and files in a shell',
    details: [
      'The script is made from the commands and options of this version: load it where the shell starts, or make it again after an update.',
      'Options are offered after a hyphen, the words that an option takes behind it, and else circuits and folders.',
    ],
    options: [],
    examples: [
      'source <(lugwork completion bash)',
      'source <(lugwork completion zsh)',
      'lugwork completion fish > ~/.config/fish/completions/lugwork.fish',
      'lugwork completion powershell | Out-String | Invoke-Expression',
    ],

    run(call, host) {
      const shell = firstOf(call.operands);
      const script = Object.entries(scripts).find(([name]) => name === shell)?.[1];
      if (script === undefined) {
        const near = nearest(shell, shells);
        throw new CannotRun(
          `there is no completion for ${shell}${near === undefined ? '' : `; did you mean ${near}?`} (${shells.join(', ')})`,
        );
      }
      host.out(script(offeredCommands(commands())));
      return exit.good;
    },
  };
}
