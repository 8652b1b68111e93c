/** The manual page of the command, from the same table as its help. */
import type { Command } from '../command/command.js';
import { commands } from '../command/commands/index.js';
import { signature } from '../command/help.js';
import { optionsOf } from '../command/options.js';

/** The page as `man` reads it, in UTF-8. */
export function manPage(version: string): string {
  return [
    `.TH LUGWORK 1 "" "lugwork ${version}" "User Commands"`,
    '.SH NAME',
    'lugwork \\- guitar wiring as text, checked before the iron is hot',
    '.SH SYNOPSIS',
    ...commands.flatMap(({ name, operands }, index) => [
      ...(index === 0 ? [] : ['.br']),
      `.B lugwork ${name}`,
      escaped(['[OPTION]…', operands].filter(Boolean).join(' ')),
    ]),
    '.SH DESCRIPTION',
    escaped(
      'A FILE is a .lug file, or a folder: then every .lug file below it is taken, except those that a .lugignore file beside them lists by name.',
    ),
    '.PP',
    '.B lugwork help',
    escaped('COMMAND shows what follows here of one command, and'),
    '.B lugwork \\-\\-version',
    'the version.',
    '.SH COMMANDS',
    ...commands.flatMap(sectionOf),
    '.SH EXIT STATUS',
    ...listed([
      ['0', 'if all is well'],
      ['1', 'if there are findings'],
      ['2', 'if the command could not run'],
    ]),
    '.SH ENVIRONMENT',
    ...listed([
      ['NO_COLOR', 'no colours, unless FORCE_COLOR or an option asks for them'],
      ['FORCE_COLOR', 'colours also where the output is no terminal; 0 for none'],
      ['LUGWORK_TRACE', 'with 1, shows where a fault of lugwork itself came from'],
    ]),
    '',
  ].join('\n');
}

function sectionOf(command: Command): readonly string[] {
  const { name, operands, summary, details, examples } = command;
  const options = optionsOf(command).map((option): readonly [string, string] => [
    signature(option),
    option.summary + (option.choices === undefined ? '' : `: ${option.choices.join(', ')}`),
  ]);
  return [
    `.SS ${escaped(['lugwork', name, operands].filter(Boolean).join(' '))}`,
    escaped(`${summary.charAt(0).toUpperCase()}${summary.slice(1)}.`),
    ...details.flatMap((paragraph) => ['.PP', escaped(paragraph)]),
    ...listed(options),
    '.PP',
    'Examples:',
    '.RS',
    '.nf',
    ...examples.map(escaped),
    '.fi',
    '.RE',
  ];
}

function listed(rows: readonly (readonly [string, string])[]): readonly string[] {
  return rows.flatMap(([name, about]) => ['.TP', `.B ${escaped(name)}`, escaped(about)]);
}

/** Text that is no request of the formatter: a hyphen stays one, and neither quotes nor a first dot are obeyed. */
function escaped(text: string): string {
  return text
    .replaceAll('\\', '\\e')
    .replaceAll('-', '\\-')
    .replaceAll('`', '\\(ga')
    .replaceAll("'", '\\(aq')
    .replaceAll('"', '\\(dq')
    .replace(/^\./, '\\&.');
}
