/** `lugwork check`: what is wrong with the wiring. */
import { checkOnce } from '../checking/once.js';
import { definition } from '../checking/definition.js';
import { watchFiles } from '../checking/watch.js';
import { CannotRun, exit, type Call, type Command, type Host } from '../command.js';
import { explained } from '../explain.js';

export const check: Command = {
  ...definition,
  operands: 'FILE…',
  arity: [0, Infinity],
  summary: 'check the wiring and suggest fixes',
  details: [
    'Looks for faults that any guitar can have (an open lug, ungrounded metal, a silent position …) and checks the circuit against its `expect` lines. Each finding names its rule; `allow RULE on NAME "why"` in the file suppresses one; SARIF lists it as suppressed in source, with that reason.',
    'The search for fixes has a budget of work for each file, some ten seconds at most, and gives the same result on every machine. If the budget runs out, the report says so and offers what was found. --effort 4 searches four times as long; --effort 0 skips the search.',
    '--fix applies the fixes that are sure, --fix=likely the likely ones as well, and rewrites the files that are named; a file that is only used stays. Each change is checked before it is kept: one that brings another error, or leaves no fewer findings, is left out and said. Comments, line ends and the layout of `lugwork format` stay. With `-` the fixed circuit goes to the standard output and the findings to stderr. --diff writes nothing and prints what would change, for `git apply` or `patch -p1`.',
    'On a terminal a line says how far a check of many files is; it is gone at the end, and never in a pipe.',
    '--watch goes on after the report, and checks again when one of the files, a file that they use or the baseline changes. Ctrl+C ends it, with exit code 0.',
    'FILE may be `-`: the circuit is then read from the standard input, and --path says where it belongs, so that its `use` lines find their files.',
    'With --staged it checks what a commit would change, as the index has it and whatever the working folder has: each circuit that is staged, and each that uses a staged, moved or deleted file, directly or through another. FILE is then optional and limits which of them are checked. Git is run for this, without a shell.',
    'Use a baseline to adopt an old circuit: --write-baseline saves the current findings in a file. With --baseline, findings in that file do not count and are not listed; those that no longer occur are listed as fixed. A finding is recognised by its rule, its subjects and the settings in which it occurs, even if its line has moved.',
    'Findings that one repair, or one corrected word, would clear together are listed once, at their cause: “and 12 more follow from it”. Counts, the exit code and baselines include all of them; --all lists them.',
    'At most 200 findings of one rule and 1,000 of one file are listed, errors first. The last line says how many are left out; --all lists them. Counts, the exit code and baselines include all of them.',
    'Places in SARIF are given from the root of the repository in which the command runs, or else from the working folder.',
    'Exit code: 0 if there are no errors, 1 if there are errors (with --strict, also if there are warnings), 2 if a file could not be read or written. With --fix and --diff it is that of the findings that remain.',
  ],
  examples: [
    'lugwork check no-3.lug',
    'lugwork check --strict circuits',
    'lugwork check --quiet --strict circuits',
    'lugwork check --format json circuits > findings.json',
    'lugwork check --baseline known.json circuits',
    'lugwork check --fix=likely --diff circuits',
    'lugwork check --watch circuits',
    'lugwork check --staged --strict',
    'lugwork check --explain floating-metal',
    'lugwork check - --path no-3.lug < draft.txt',
  ],

  run(call, host) {
    const rule = call.values.get('explain');
    if (rule !== undefined) return explain(rule, call, host);
    return call.flags.has('watch') ? watchFiles(call, host) : checkOnce(call, host);
  },
};

function explain(rule: string, { operands }: Call, host: Host): number {
  if (operands.length > 0) throw new CannotRun('--explain shows a page and checks nothing: leave out FILE');
  host.out(explained(rule, host));
  return exit.good;
}
