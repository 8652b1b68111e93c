/** `lugwork language-server`: the language server for any editor that speaks the Language Server Protocol. */
import { CannotRun, exit, type Command } from '../command.js';

export const languageServer: Command = {
  name: 'language-server',
  operands: '--stdio',
  arity: [0, 0],
  summary: 'start the language server for an editor',
  details: [
    'The editor starts this command and speaks the Language Server Protocol with it through its standard input and output; it ends with the editor. The reference has settings for editors that were tried, in reference-editors.md.',
  ],
  options: [{ name: 'stdio', summary: 'speak through the standard input and output, which is the only way' }],
  examples: ['lugwork language-server --stdio'],

  async run(call, host) {
    if (!call.flags.has('stdio'))
      throw new CannotRun(
        'an editor starts the language server and speaks with it: `lugwork language-server --stdio`; in a terminal use `lugwork check`',
      );
    if (host.serve === undefined) throw new CannotRun('the language server needs the standard streams of a process');
    await host.serve();
    return exit.good;
  },
};
