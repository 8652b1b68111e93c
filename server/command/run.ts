/** Takes a command line apart, runs its subcommand, and turns what goes wrong into a message and an exit code. */
import { oneLine } from '../../language/escape.js';
import { DrawingStopped } from '../../language/drawing/index.js';
import { CannotRun, exit, type Command, type Host } from './command.js';
import { commands } from './commands/index.js';
import { commandHelp, overview } from './help.js';
import { nearest } from '../../language/nearest.js';
import { parseCall } from './options.js';
import { version } from './version.js';

/** Runs the words after `lugwork` and returns the exit code, at once unless the subcommand has to wait for something. Never throws or rejects. */
export function run(words: readonly string[], host: Host): number | Promise<number> {
  const fail = (error: unknown): number => {
    host.err(error instanceof CannotRun || error instanceof DrawingStopped ? sentence(error.message) : faultOf(error));
    return exit.cannotRun;
  };
  try {
    const code = dispatch(words, host);
    return typeof code === 'number' ? code : code.catch(fail);
  } catch (error) {
    return fail(error);
  }
}

/** An exception that nobody foresaw, in one sentence; where it came from is shown to those who ask for it. */
export function faultOf(error: unknown): string {
  const isError = error instanceof Error;
  const message = isError ? `${error.name}: ${error.message}` : String(error);
  const trace = process.env['LUGWORK_TRACE'] && isError ? `${error.stack}\n` : '';
  return `${sentence(`this is a bug in lugwork (${message}); please report it with the output of LUGWORK_TRACE=1`)}${trace}`;
}

/** A message as one line on stderr. */
export function sentence(message: string): string {
  return `lugwork: ${oneLine(message)}\n`;
}

function dispatch(words: readonly string[], host: Host): number | Promise<number> {
  const [first, ...rest] = words;
  if (first === undefined) {
    host.err(overview(commands));
    return exit.cannotRun;
  }
  if (first === '--version' || first === '-v') {
    host.out(`lugwork ${version}\n`);
    return exit.good;
  }
  if (first === '--help' || first === '-h') {
    host.out(overview(commands));
    return exit.good;
  }
  if (first === 'help') {
    host.out(rest[0] === undefined ? overview(commands) : commandHelp(find(rest[0])));
    return exit.good;
  }
  const command = find(first);
  const call = parseCall(command, rest);
  if (call.flags.has('help')) {
    host.out(commandHelp(command));
    return exit.good;
  }
  // Each is one line, and paths and texts of the user's stand in it: neither a terminal nor a build's log may obey them.
  const err = (text: string): void => host.err(`${oneLine(text.trimEnd())}\n`);
  const wanted = call.values.get('color') ?? 'auto';
  const colour = wanted === 'auto' ? host.colour : wanted === 'always';
  return command.run(call, { ...host, err, colour, outside: call.flags.has('outside') });
}

function find(name: string): Command {
  const command = commands.find((known) => known.name === name);
  if (command) return command;
  if (name === '') throw new CannotRun("the name of the command is empty (''); `lugwork --help` lists the commands");
  const near = nearest(
    name,
    commands.map((known) => known.name),
  );
  const kind = name.startsWith('-') ? 'option' : 'command';
  throw new CannotRun(
    `there is no ${kind} ${name}; ${near && kind === 'command' ? `did you mean ${near}?` : '`lugwork --help` lists the commands'}`,
  );
}
