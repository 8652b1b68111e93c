/** The help texts, made from the commands' definitions. */
import type { Command, OptionDefinition } from './command.js';
import { optionsOf } from './options.js';
import { wrapped } from './output/terminal.js';

const pageWidth = 110;

/** `lugwork --help`. */
export function overview(commands: readonly Command[]): string {
  const usages = commands.map((command) => [usage(command), command.summary] as const);
  return `lugwork: guitar wiring as text, checked before the iron is hot

${columns(usages)}

  lugwork COMMAND --help    help for one command
  lugwork --version         the version

A FILE is a .lug file, or a folder: then every .lug file below it is taken, except those that a .lugignore file beside them lists by name.
Exit code: 0 if all is well, 1 if there are findings, 2 if the command could not run.
`;
}

/** `lugwork COMMAND --help`. */
export function commandHelp(command: Command): string {
  const options = optionsOf(command).map((option) => [signature(option), option.summary + choices(option)] as const);
  return [
    `${usage(command)}: ${command.summary}`,
    ...command.details.map((paragraph) => wrapped(paragraph, pageWidth).join('\n')),
    `Options:\n${columns(options)}`,
    `Examples:\n${command.examples.map((example) => `  ${example}`).join('\n')}`,
  ]
    .join('\n\n')
    .concat('\n');
}

/** `lugwork check FILE…`. */
function usage({ name, operands }: Command): string {
  return `lugwork ${name} ${operands}`.trimEnd();
}

/** `-o, --output FILE`, `--fix[=WORD]`. */
export function signature(option: OptionDefinition): string {
  const value = option.value ?? (option.choices ? 'WORD' : '');
  return `${option.short ? `-${option.short}, ` : ''}--${option.name}${option.isOptional ? `[=${value}]` : value && ` ${value}`}`;
}

function choices(option: OptionDefinition): string {
  return option.choices ? `: ${option.choices.join(', ')}` : '';
}

function columns(rows: readonly (readonly [string, string])[]): string {
  const width = Math.max(...rows.map(([left]) => left.length));
  return rows.map(([left, right]) => `  ${left.padEnd(width)}  ${right}`).join('\n');
}
