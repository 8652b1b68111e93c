/** `lugwork expect`: `expect` lines for all positions, printed or merged into the file. */
import type { AnalysedCircuit } from '../../../language/circuit/model.js';
import { firstOf } from '../../../language/collections.js';
import { edited } from '../../../language/edited.js';
import { oneLine } from '../../../language/escape.js';
import { isDead, linesOfNow, linesOfPattern, patterns, usualOf, usualText } from '../../../language/intent/index.js';
import { mergedText, mergeExpectations, type Means } from '../../../language/merge-expectations.js';
import type { Project } from '../../../language/project.js';
import type { SourceRange } from '../../../language/source.js';
import { CannotRun, exit, type Call, type Command, type Host } from '../command.js';
import { rewrite } from '../output/rewrite.js';
import { readCircuit, type SourceFile } from '../reading/reading.js';

export const expect: Command = {
  name: 'expect',
  operands: 'FILE',
  arity: [1, 1],
  summary: 'make `expect` lines for all positions, from the current behaviour or from a pattern',
  details: [
    'Prints lines for you to add to the file, or writes them into it. Without --pattern they describe the current behaviour: read them before you keep them, because they also record any mistake. With a pattern they describe what such a switch usually does, whatever the circuit does now.',
    'With --usual the pattern is chosen by what each switch is for, and the order of the pickups by the names of the positions, else by what sounds there now, else as they are declared. A comment says where something else sounds now.',
    'With --write the lines go into the file. What is stated already, also with wider limits, is not written again. A line that says something else is replaced only if it was written by the same means and has no comment (`/** */`); otherwise it is kept, and the new line is left out and printed.',
    'The patterns take the pickups in the order of --pickups, or else in the order in which they are declared:',
    ...patterns.map(({ name, says }) => `${name}: ${says}`),
  ],
  options: [
    {
      name: 'pattern',
      value: 'NAME[,split]',
      summary: 'the pattern; add `split` where a switch splits the coils',
    },
    {
      name: 'usual',
      summary: 'choose the pattern by what each switch is for, and mark where something else sounds now',
    },
    { name: 'pickups', value: '"NAME, …"', summary: 'the pickups in the order of the positions' },
    {
      name: 'turns',
      summary: 'add buttons; reading, cutoff and level, also with the pots at half rotation and at both ends',
    },
    { name: 'write', summary: 'write the lines into FILE, merged with those that it has' },
    { name: 'force', summary: 'give the lines even if the circuit is silent everywhere' },
  ],
  examples: [
    'lugwork expect no-3.lug',
    'lugwork expect no-3.lug --pattern neighbours --pickups "bridge, neck"',
    'lugwork expect no-3.lug --usual',
    'lugwork expect no-3.lug --turns --write',
  ],

  run(call, host) {
    const { circuit, file, project } = readCircuit(firstOf(call.operands), host);
    const isWritten = call.flags.has('write');
    if (isWritten && file.path.endsWith('.json'))
      throw new CannotRun(`${file.path} is a circuit in JSON, so no lines can be written into it`);
    if (call.flags.has('usual') && (call.values.has('pattern') || call.values.has('pickups')))
      throw new CannotRun(
        '--usual chooses the pattern and the order of the pickups by itself; leave out --pattern and --pickups',
      );
    const { lines, means, comments } = linesFor(call, file, circuit, host);
    if (isWritten) return write(file, project, lines, means, host);
    host.out(lines.map((line, index) => `${oneLine(line)}${comments?.[index] ?? ''}\n`).join(''));
    return exit.good;
  },
};

interface Lines {
  readonly lines: readonly string[];
  readonly means: Means;
  /** What is printed behind each line, and not written into the file. */
  readonly comments?: readonly string[];
}

function linesFor(call: Call, file: SourceFile, circuit: AnalysedCircuit, host: Host): Lines {
  const pattern = listed(call.values.get('pattern'));
  if (pattern !== undefined) return { lines: linesBy(pattern, call, circuit), means: 'pattern' };
  return call.flags.has('usual') ? linesUsual(file, circuit, host) : { lines: linesNow(call, file, circuit), means: 'now' };
}

function linesUsual({ path }: SourceFile, circuit: AnalysedCircuit, host: Host): Lines {
  const usual = usualOf(circuit);
  if (usual === undefined)
    throw new CannotRun(
      `what is usual for ${path} isn’t known: its switches, the names of their positions or its wiring fit no pattern. Name one with --pattern, or leave out --usual`,
    );
  // The comments say which; where nothing differs there is nothing to say.
  if (usual.differing > 0) host.err(`lugwork: ${path}: ${usualText(usual)}\n`);
  return {
    lines: usual.lines.map(({ line }) => line),
    means: 'pattern',
    comments: usual.lines.map(({ now }) => (now === undefined ? '' : ` // now ${oneLine(now)}`)),
  };
}

function linesNow(call: Call, file: SourceFile, circuit: AnalysedCircuit): readonly string[] {
  const lines = linesOfNow(circuit, { turns: call.flags.has('turns') });
  if (lines.length === 0) throw new CannotRun(`${file.path} has no jack, so its positions can’t be described`);
  if (!call.flags.has('force') && isDead(circuit))
    throw new CannotRun(
      `${file.path} is silent in every position, however its pots are turned: expectations would record the mistake. --force ${call.flags.has('write') ? 'writes' : 'prints'} them all the same`,
    );
  return lines;
}

function linesBy(pattern: readonly string[], call: Call, circuit: AnalysedCircuit): readonly string[] {
  const made = linesOfPattern(circuit, pattern, listed(call.values.get('pickups')));
  if ('problem' in made) throw new CannotRun(made.problem);
  return made.lines;
}

/** Merges the lines into the file, and prints what became of them. */
function write(file: SourceFile, project: Project, lines: readonly string[], means: Means, host: Host): number {
  const { text, uri, path } = file;
  const merged = mergeExpectations(project, uri, lines, means);
  if (merged === undefined) throw new Error(`${uri} was not read`);
  if (merged.edits.length > 0) {
    const { problem, remark } = rewrite(file, edited(text, merged.edits), host);
    if (problem !== undefined) throw new CannotRun(`${path}: this file can’t be written: ${problem}`);
    if (remark !== undefined) host.err(`lugwork: ${path}: ${remark}\n`);
  }
  host.out(`${oneLine(path)}: ${mergedText(merged)}\n`);
  for (const { range, instead } of merged.kept)
    host.out(oneLine(`${placeText(range, file)} is kept; left out: ${instead.replace(/ +/g, ' ')}`) + '\n');
  return exit.good;
}

/** `line 31`, or the file as well where it is another. */
function placeText({ uri, start }: SourceRange, file: SourceFile): string {
  return `line ${start.line + 1}${uri === file.uri ? '' : ` of ${decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1))}`}`;
}

function listed(value: string | undefined): readonly string[] | undefined {
  return value
    ?.split(',')
    .map((word) => word.trim())
    .filter(Boolean);
}
