/** The options of `lugwork check`, and what a call says by them. */
import type { Call, OptionDefinition } from '../command.js';
import type { Level } from '../fixing/fix-files.js';
import { choice } from '../options.js';
import { forceOption } from '../output/output.js';

export const definition: { readonly name: string; readonly options: readonly OptionDefinition[] } = {
  name: 'check',
  options: [
    { name: 'format', choices: ['text', 'json', 'sarif', 'junit', 'github'], summary: 'output format of the findings' },
    { name: 'strict', summary: 'exit with 1 for warnings as well' },
    { name: 'quiet', summary: 'print findings alone: no summary, and nothing where there are none' },
    { name: 'effort', value: 'N', summary: 'budget of the search for fixes, as a factor from 0 to 100; 1 by default' },
    {
      name: 'fix',
      choices: ['sure', 'likely'],
      isOptional: true,
      summary: 'apply fixes and rewrite the files: those that are sure, or likely ones as well',
    },
    { name: 'diff', summary: 'show what --fix would change as a unified diff, and write nothing' },
    { name: 'baseline', value: 'FILE', summary: 'file of known findings; only others count' },
    { name: 'write-baseline', value: 'FILE', summary: 'save the current findings as known, and exit with 0' },
    {
      name: 'explain',
      value: 'RULE',
      summary: 'show the page of a rule: what it finds, why it matters, an example and its repair',
    },
    { name: 'all', summary: 'list every finding, also those that follow from another, without limits' },
    { name: 'watch', summary: 'check again whenever one of the files changes, until Ctrl+C' },
    { name: 'staged', summary: 'check what is staged for the next commit, for a pre-commit hook' },
    forceOption,
    { name: 'path', value: 'NAME', summary: 'path to assume for the circuit from the standard input' },
  ],
};

export function formatOf(call: Call): string {
  return choice(call, definition, 'format');
}

/** What is to be fixed, where anything is. */
export interface Fixing {
  readonly level: Level;
  /** True where the changes are shown and nothing is written. */
  readonly isDiff: boolean;
}

export function fixingOf(call: Call): Fixing | undefined {
  const isDiff = call.flags.has('diff');
  const level = call.values.get('fix');
  if (level === undefined && !isDiff) return undefined;
  return { level: level === 'likely' ? 'likely' : 'sure', isDiff };
}
