/** `check --fix` and `--diff`: fixes the files of a call, writes or shows what changed, and says what was done. */
import { counted } from '../../../language/circuit/index.js';
import { oneLine } from '../../../language/escape.js';
import type { Call, Host } from '../command.js';
import type { Candidate } from '../fixing/bench.js';
import { fixFiles, type Fixed, type FixOptions } from '../fixing/fix-files.js';
import { unifiedDiff } from '../fixing/unified-diff.js';
import { rewrite } from '../output/rewrite.js';
import type { SourceFile } from '../reading/reading.js';
import { formatOf, type Fixing } from './definition.js';
import type { Input } from './input.js';

export interface FixedInput {
  /** The files as they are now. */
  readonly input: Input;
  /** Where the report goes: the standard output may be taken. */
  readonly host: Host;
}

/** Fixes and writes what a call of `lugwork check` is about. A file that can't be written keeps its text, and the call is then not complete. */
export function fixInput(
  input: Input,
  options: FixOptions & Fixing & { readonly isQuiet: boolean },
  call: Call,
  host: Host,
): FixedInput {
  const { project } = input;
  const fixed = fixFiles(input.files, project, options);
  const unwritten = new Set<string>();
  const files = input.files.map((file): SourceFile => {
    const text = project.text(file.uri) ?? file.text;
    if (file.uri.endsWith('.json')) return file;
    if (options.isDiff) show(file, text, host);
    else if (file.uri === input.piped) host.out(withMark(file, text));
    else if (text !== file.text && !isWritten(file, text, host)) {
      project.update(file.uri, file.text);
      unwritten.add(file.uri);
      return file;
    }
    return { ...file, text };
  });
  const isTaken = options.isDiff || input.piped !== undefined;
  const lines = isTaken ? (text: string) => text.split('\n').forEach((line) => host.err(`${line}\n`)) : undefined;
  const after: Host = lines === undefined ? host : { ...host, out: (text) => lines(text.replace(/\n$/, '')), colour: false };
  const say = formatOf(call) === 'text' ? after.out : host.err;
  const applied = fixed.applied.filter(({ fix }) => !fix.edits.some(({ range }) => unwritten.has(range.uri)));
  if (!options.isQuiet) for (const line of accountOf(fixed, applied, options)) say(`${line}\n`);
  return { input: { ...input, files, isComplete: input.isComplete && unwritten.size === 0 }, host: after };
}

function show(file: SourceFile, text: string, host: Host): void {
  const options = { isShown: host.isTerminal === true, colour: host.colour };
  host.out(unifiedDiff(file.path, withMark(file, file.text), withMark(file, text), options));
}

function withMark({ hasMark }: SourceFile, text: string): string {
  return (hasMark ? '\uFEFF' : '') + text;
}

function isWritten(file: SourceFile, text: string, host: Host): boolean {
  const { problem, remark } = rewrite(file, text, host);
  if (problem !== undefined) host.err(`lugwork: ${file.path}: this file can’t be written: ${problem}\n`);
  else if (remark !== undefined) host.err(`lugwork: ${file.path}: ${remark}\n`);
  return problem === undefined;
}

/** What was done, and what was left out and why; `applied` are those that are written. */
function accountOf(
  { applied: found, refused, isThrough }: Fixed,
  applied: readonly Candidate[],
  { isDiff, level }: Fixing,
): readonly string[] {
  const files = new Set(applied.flatMap(({ fix }) => fix.edits.map(({ range }) => range.uri))).size;
  const kind = level === 'sure' ? 'sure' : 'sure or likely';
  const verb = isDiff ? 'would be applied' : 'applied';
  const total =
    applied.length === 0
      ? `no fixes ${verb}${found.length > 0 ? '' : `: none that is ${kind} helps`}`
      : `${applied.length} ${applied.length === 1 ? 'fix' : 'fixes'} ${verb} in ${counted(files, 'file')}`;
  return [
    ...applied.map((one) => `${placeOf(one)}: ${isDiff ? 'would be fixed' : 'fixed'}: ${titleOf(one)}`),
    ...refused.map((one) => `${placeOf(one)}: left alone: ${titleOf(one)}; ${oneLine(one.problem)}`),
    ...(isThrough ? [] : ['so many fixes were tried that the rest is left for another call']),
    total,
  ];
}

/** Where the finding was when the fix was made. */
function placeOf({ file, finding: { range } }: Candidate): string {
  return range.uri === file.uri ? `${oneLine(file.path)}:${range.start.line + 1}` : oneLine(file.path);
}

function titleOf({ finding, fix }: Candidate): string {
  return `${oneLine(fix.title)} [${finding.rule}]`;
}
