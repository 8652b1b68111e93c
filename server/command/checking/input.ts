/** What a call of `lugwork check` is about: files, the standard input, or what is staged. */
import type { Project } from '../../../language/project.js';
import { CannotRun, type Call, type Host } from '../command.js';
import { diskProject, readFiles, readPiped, readText, standardInput, type ReadFiles } from '../reading/reading.js';
import { readStaged } from '../reading/staged.js';
import { realOf } from '../reading/within.js';
import { fixingOf, formatOf } from './definition.js';

export interface Input extends ReadFiles {
  readonly project: Project;
  /** Reads files that are not among those checked. */
  readonly read: (path: string) => { text: string } | { problem: string };
  /** Where the paths start from. */
  readonly cwd: string;
  /** The address of the circuit that came from the standard input. */
  readonly piped?: string;
}

/** Reads what the call means. Throws `CannotRun` where its options don't go together. */
export function readInput(call: Call, host: Host): Input {
  const { operands } = call;
  const path = call.values.get('path');
  const isPiped = operands.includes(standardInput);
  if (call.flags.has('quiet') && formatOf(call) !== 'text')
    throw new CannotRun('--quiet is for text; the other formats have no summary to leave out');
  if (path !== undefined && !isPiped) throw new CannotRun('--path says what the standard input is, and needs - as FILE');
  if (fixingOf(call) !== undefined) refuseFixing(call, isPiped);
  if (call.flags.has('staged')) {
    if (isPiped) throw new CannotRun('--staged reads the index, so - can’t be among its files');
    if (call.values.has('write-baseline'))
      throw new CannotRun('--staged checks some of the files, and --write-baseline is meant for all of them');
    const staged = readStaged(operands, host);
    return { ...staged, read: staged.textAt, cwd: realOf(host.cwd) };
  }
  if (operands.length === 0) throw new CannotRun('lugwork check needs FILE…, or --staged');
  const read = readFiles(
    operands.filter((operand) => operand !== standardInput),
    host,
  );
  const whole = { ...read, project: diskProject(host), read: readText, cwd: host.cwd };
  if (!isPiped) return whole;
  const piped = readPiped(path ?? standardInput, host);
  whole.project.update(piped.uri, piped.text);
  return { ...whole, files: [piped, ...read.files.filter(({ uri }) => uri !== piped.uri)], piped: piped.uri };
}

function refuseFixing(call: Call, isPiped: boolean): void {
  const option = call.flags.has('diff') ? '--diff' : '--fix';
  if (call.flags.has('staged'))
    throw new CannotRun(`${option} changes files of the working folder, and --staged checks the index`);
  if (call.values.has('write-baseline'))
    throw new CannotRun(`${option} and --write-baseline don’t go together: fix first, then save what remains`);
  if (formatOf(call) === 'text') return;
  if (call.flags.has('diff')) throw new CannotRun('--diff prints a diff instead of findings, so --format has no meaning for it');
  if (isPiped)
    throw new CannotRun(
      'with --fix and - the standard output is the fixed circuit; findings are text on stderr, without --format',
    );
}
