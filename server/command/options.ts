/** Reads a subcommand's arguments by its definition, with messages that say what would have been right. */
import { firstOf } from '../../language/collections.js';
import { parseArgs } from 'node:util';
import { CannotRun, type Call, type Command, type OptionDefinition } from './command.js';
import { nearest } from '../../language/nearest.js';

const helpOption: OptionDefinition = { name: 'help', short: 'h', summary: 'show this help' };

const outsideOption: OptionDefinition = {
  name: 'outside',
  summary: 'let `use` name files outside the project (the repository, or else the folder)',
};

const colourOption: OptionDefinition = {
  name: 'color',
  choices: ['auto', 'always', 'never'],
  summary: 'colours in text, by default on a terminal',
};

/** The options a command understands, those that all of them have among them. */
export function optionsOf(command: Command): readonly OptionDefinition[] {
  return [...command.options, outsideOption, colourOption, helpOption];
}

/** Parses the words after the subcommand's name. Throws `CannotRun` for what the definition does not allow. */
export function parseCall(command: Command, words: readonly string[]): Call {
  const definitions = optionsOf(command);
  const { tokens } = parseArgs({
    args: [...words],
    options: Object.fromEntries(
      definitions.map((option) => [
        option.name,
        { type: takesWord(option) ? 'string' : 'boolean', ...(option.short ? { short: option.short } : {}) },
      ]),
    ),
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  const operands: string[] = [];
  const values = new Map<string, string>();
  const flags = new Set<string>();
  for (const token of tokens) {
    if (token.kind === 'positional') operands.push(token.value);
    if (token.kind !== 'option') continue;
    const option = definitions.find((known) => known.name === token.name);
    if (!option) throw unknownOption(command, token.rawName, definitions);
    if (option.isOptional && token.value === undefined) values.set(option.name, firstOf(option.choices ?? []));
    else if (option.value || option.choices) values.set(option.name, checkedValue(option, token.value));
    else if (token.value !== undefined) throw new CannotRun(`--${option.name} takes no value`);
    else flags.add(option.name);
  }
  if (!flags.has('help')) checkArity(command, operands);
  return { operands, values, flags };
}

/** True where the word behind the option belongs to it. */
export function takesWord({ value, choices, isOptional }: OptionDefinition): boolean {
  return isOptional !== true && (value !== undefined || choices !== undefined);
}

/** The value of an option with choices: what was given, else its first choice. */
export function choice(call: Call, command: Pick<Command, 'name' | 'options'>, name: string): string {
  const choices = command.options.find((option) => option.name === name)?.choices;
  if (choices === undefined) throw new Error(`${command.name} has no option --${name} with choices`);
  return call.values.get(name) ?? firstOf(choices);
}

/** A number given to an option, within limits; `fallback` where it is not given. */
export function numberOption(call: Call, name: string, fallback: number, least: number, most: number): number {
  const text = call.values.get(name);
  if (text === undefined) return fallback;
  const number = Number(text);
  if (text.trim() === '' || !Number.isFinite(number) || number < least || number > most) {
    throw new CannotRun(`--${name} takes a number from ${least} to ${most}, not “${text}”`);
  }
  return number;
}

function checkedValue(option: OptionDefinition, value: string | undefined): string {
  const wanted = option.choices ? option.choices.join(', ') : option.value;
  if (value === undefined || (option.choices && value.startsWith('-')))
    throw new CannotRun(`--${option.name} needs a value: ${wanted}`);
  // An empty name would mean the working folder.
  if (value === '' && (option.value === 'FILE' || option.value === 'NAME'))
    throw new CannotRun(`--${option.name} needs the name of a file, and was given ''`);
  if (option.choices && !option.choices.includes(value)) {
    const near = nearest(value, option.choices);
    throw new CannotRun(`--${option.name} ${value} is not known${near ? `; did you mean ${near}?` : ''} (${wanted})`);
  }
  return value;
}

function unknownOption(command: Command, raw: string, definitions: readonly OptionDefinition[]): CannotRun {
  const near = nearest(
    raw,
    definitions.map((option) => `--${option.name}`),
  );
  const hint = near ? `did you mean ${near}?` : `\`lugwork ${command.name} --help\` lists its options`;
  return new CannotRun(`lugwork ${command.name} has no option ${raw}; ${hint}`);
}

function checkArity(command: Command, operands: readonly string[]): void {
  const [least, most] = command.arity;
  // An empty name would mean the working folder; mostly a script's variable is not set.
  if (operands.includes(''))
    throw new CannotRun(`lugwork ${command.name} was given an empty argument ('') instead of ${command.operands}`);
  if (operands.length < least) throw new CannotRun(`lugwork ${command.name} needs ${command.operands}`);
  if (operands.length > most) {
    throw new CannotRun(
      `lugwork ${command.name} takes ${command.operands || 'no argument'}; “${operands[most]}” is one argument too many`,
    );
  }
}
