/** What a subcommand is: its definition, from which its help, its argument parsing and the reference table are made, and its action. */
import type { LayoutThread } from '../layout-thread.js';

/** An option; without `value` it is a flag. */
export interface OptionDefinition {
  readonly name: string;
  readonly short?: string;
  /** What its value is called in the help: `FILE`, `HZ`. */
  readonly value?: string;
  /** The words it may be; the first is the default. */
  readonly choices?: readonly string[];
  /** True where the word may be left out, and is written behind `=`: `--fix`, `--fix=likely`. */
  readonly isOptional?: boolean;
  readonly summary: string;
}

export interface Command {
  readonly name: string;
  /** The operands as the usage line shows them: `FILE…`. */
  readonly operands: string;
  /** Fewest and most operands. */
  readonly arity: readonly [number, number];
  /** One line, lower case, no full stop. */
  readonly summary: string;
  /** Further paragraphs of its help. */
  readonly details: readonly string[];
  readonly options: readonly OptionDefinition[];
  readonly examples: readonly string[];
  /** Does it and returns the exit code. Throws `CannotRun` where it cannot. */
  run(call: Call, host: Host): number | Promise<number>;
}

/** One call, parsed. */
export interface Call {
  readonly operands: readonly string[];
  readonly values: ReadonlyMap<string, string>;
  readonly flags: ReadonlySet<string>;
}

/** The world outside, as a command sees it. */
export interface Host {
  readonly cwd: string;
  /** Columns of the terminal; 80 where there is none. */
  readonly columns: number;
  /** True on a terminal that shows colours. */
  readonly colour: boolean;
  /** True where the output goes to a terminal, which would obey control characters. */
  readonly isTerminal?: boolean;
  /** True where `use` may name files outside the project's folder. */
  readonly outside?: boolean;
  out(text: string): void;
  err(text: string): void;
  /** A page of the reference, by its path in the project, as Markdown. Throws `CannotRun` where it is not installed. */
  readPage(path: string): string;
  /** Says how far long work is, where someone looks on: so many of all are done, and this one is being worked on. */
  progress?(done: number, total: number, name: string): void;
  /** Has this called once where the user ends the command (Ctrl+C), which then goes on until it returns. */
  onInterrupt?(end: () => void): void;
  /** Runs the language server over the standard streams until its editor ends it. Throws `CannotRun` where it is not installed; absent where the streams are not a process's own. */
  serve?(): Promise<void>;
  /** Starts what lays out drawings; the subcommand that asked for it disposes of it. */
  startLayout(): LayoutThread;
}

/** Something the user must put right before the command can run: its message goes to stderr, the exit code is 2. */
export class CannotRun extends Error {}

/** The exit codes, fixed for those who script the command. */
export const exit = { good: 0, findings: 1, cannotRun: 2 } as const;
