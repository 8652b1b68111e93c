/** What can follow in a command line, taken from the table of commands: what the scripts for all shells are made from. */
import { rules } from '../../../language/checks/index.js';
import type { Command, OptionDefinition } from '../command.js';
import { optionsOf } from '../options.js';

/** What is offered behind an option, or where an operand is due. */
export type Offer =
  | { readonly kind: 'words'; readonly words: readonly string[] }
  /** Files with one of these endings, and folders; any file where there is none. */
  | { readonly kind: 'files'; readonly endings: readonly string[] }
  /** What only the user can know. */
  | { readonly kind: 'none' };

export interface OfferedOption {
  readonly name: string;
  readonly short?: string;
  readonly summary: string;
  /** What its value is called. */
  readonly value: string;
  /** Absent where it has no value. */
  readonly offer?: Offer;
  /** True where the value may be left out, and is written behind `=`. */
  readonly isOptional: boolean;
}

export interface OfferedCommand {
  readonly name: string;
  readonly summary: string;
  readonly options: readonly OfferedOption[];
  readonly operand: Offer;
}

export function offeredCommands(commands: readonly Command[]): readonly OfferedCommand[] {
  return [
    ...commands.map((command) => ({
      name: command.name,
      summary: command.summary,
      options: optionsOf(command).map(offeredOption),
      operand: operandOf(command.operands),
    })),
    {
      name: 'help',
      summary: 'show the help of a command',
      options: [],
      operand: { kind: 'words', words: commands.map(({ name }) => name) },
    },
  ];
}

/** All ways in which an option can be written: `--fix`, `--fix=likely`, `-o`. */
export function spellings({ name, short, offer, isOptional }: OfferedOption): readonly string[] {
  const words = isOptional && offer?.kind === 'words' ? offer.words : [];
  return [`--${name}`, ...words.map((word) => `--${name}=${word}`), ...(short === undefined ? [] : [`-${short}`])];
}

function offeredOption(option: OptionDefinition): OfferedOption {
  const { name, short, summary, value, choices, isOptional = false } = option;
  const offer = offerOf(value, choices);
  return {
    name,
    summary,
    value: value ?? 'WORD',
    isOptional,
    ...(short === undefined ? {} : { short }),
    ...(offer === undefined ? {} : { offer }),
  };
}

function offerOf(value: string | undefined, choices: readonly string[] | undefined): Offer | undefined {
  if (choices !== undefined) return { kind: 'words', words: choices };
  if (value === 'FILE') return { kind: 'files', endings: [] };
  if (value === 'RULE') return { kind: 'words', words: rules.map(({ id }) => id) };
  return value === undefined ? undefined : { kind: 'none' };
}

/** By how the usage line writes them: `bash|zsh` are words, `WIRES.csv` is a file of that kind; all else are circuits. */
function operandOf(operands: string): Offer {
  if (operands === '') return { kind: 'none' };
  if (operands.includes('|')) return { kind: 'words', words: operands.split('|') };
  const ending = /\.(\w+)/.exec(operands)?.[1];
  return { kind: 'files', endings: [ending ?? 'lug'] };
}
