/** One check of the files of a call, with its report and its exit code. */
import { fileURLToPath } from 'node:url';
import { createCheckedTexts } from '../../../language/causes.js';
import { rules } from '../../../language/checks/index.js';
import { counted } from '../../../language/circuit/index.js';
import { oneLine } from '../../../language/escape.js';
import { findings, findingSteps, setAside } from '../../../language/findings.js';
import type { Finding } from '../../../language/source.js';
import { finished, type Steps } from '../../../language/steps.js';
import { exit, type Call, type Host } from '../command.js';
import { checkGithub } from '../formats/check-github.js';
import { checkJson } from '../formats/check-json.js';
import { checkJunit } from '../formats/check-junit.js';
import { checkSarif } from '../formats/check-sarif.js';
import { checkText, quietText } from '../formats/check-text.js';
import { numberOption } from '../options.js';
import { baselineText, readBaseline } from '../output/baseline.js';
import { isStandardOutput, sourcesOf, writeOutput } from '../output/output.js';
import { createReport, type CheckedFile, type CheckReport } from '../output/report.js';
import { circuitOf } from '../reading/reading.js';
import { repairedSteps } from '../repairs.js';
import { mostEffort } from '../../stopped-search.js';
import { fixingOf, formatOf } from './definition.js';
import { fixInput } from './fix.js';
import { readInput, type Input } from './input.js';

export interface Checked {
  readonly code: number;
  /** Paths of the files that those of the call use, missing ones too. */
  readonly used: readonly string[];
}

/** Checks, reports and returns the exit code. Throws `CannotRun` where it can't. */
export function checkOnce(call: Call, host: Host): number {
  return finished(checkSteps(call, host)).code;
}

/** The same in steps of some milliseconds each. */
export function* checkSteps(call: Call, host: Host): Steps<Checked> {
  const effort = effortOf(call);
  const input = readInput(call, host);
  const written = call.values.get('write-baseline');
  const done = (code: number): Checked => ({ code, used: usedBy(input) });
  if (written !== undefined) return done(saveBaseline(written, input, call, host));
  const fixing = fixingOf(call);
  if (fixing === undefined) return done(yield* reportSteps(input, call, host));
  const counting = createCounting(call, host);
  const fixed = fixInput(input, { ...fixing, effort, counting, isQuiet: call.flags.has('quiet') }, call, host);
  if (!fixing.isDiff) return done(yield* reportSteps(fixed.input, call, fixed.host));
  const { files, project } = fixed.input;
  const remaining = files.flatMap((file) => counting(file, findings(circuitOf(project, file.uri))));
  if (!call.flags.has('quiet')) host.err(`${remainingText(remaining)} would remain\n`);
  return done(codeOf(remaining, fixed.input, call));
}

function usedBy({ files, project }: Input): readonly string[] {
  const uris = files.flatMap(({ uri }) => circuitOf(project, uri).files ?? []);
  return [...new Set(uris)].filter((uri) => uri.startsWith('file:')).map((uri) => fileURLToPath(uri));
}

function remainingText(remaining: readonly Finding[]): string {
  const kinds = [
    ['error', ['error']],
    ['warning', ['warning']],
    ['note', ['info', 'hint']],
  ] as const;
  const counts = kinds.map(([name, own]) =>
    counted(remaining.filter(({ severity }) => own.some((word) => word === severity)).length, name),
  );
  return counts.join(', ');
}

export function effortOf(call: Call): number {
  return numberOption(call, 'effort', 1, 0, mostEffort);
}

/** Those of a file's findings that no baseline knows. */
function createCounting(call: Call, host: Host) {
  const name = call.values.get('baseline');
  return ({ path }: { readonly path: string }, found: readonly Finding[]): readonly Finding[] => {
    // A baseline is asked once for each file, so each time it is read anew.
    const known = name === undefined ? new Set<Finding>() : readBaseline(name, host.cwd).knownAmong(path, found);
    return found.filter((finding) => !known.has(finding));
  };
}

function saveBaseline(name: string, { files, isComplete, project }: Input, call: Call, host: Host): number {
  if (!isComplete) return exit.cannotRun;
  const all = files.map(({ path, uri }) => ({ path, findings: findings(circuitOf(project, uri)) }));
  const { text, count } = baselineText(name, host.cwd, all);
  const sources = files.flatMap(({ uri }) => sourcesOf(uri, circuitOf(project, uri)));
  writeOutput(name, { text, sources, form: 'JSON' }, call.flags.has('force'), host);
  const write = isStandardOutput(name, host.cwd) ? host.err : host.out;
  write(`${counted(count, 'finding')} of ${counted(files.length, 'file')} written to ${oneLine(name)}\n`);
  return exit.good;
}

function* reportSteps(input: Input, call: Call, host: Host): Steps<number> {
  const { files, isComplete, passedOver, project, read, cwd } = input;
  const effort = effortOf(call);
  const name = call.values.get('baseline');
  const baseline = name === undefined ? undefined : readBaseline(name, host.cwd);
  const checked: CheckedFile[] = [];
  for (const [index, file] of files.entries()) {
    host.progress?.(index, files.length, file.path);
    const circuit = circuitOf(project, file.uri);
    const all = yield* findingSteps(circuit);
    const known = baseline?.knownAmong(file.path, all) ?? new Set<Finding>();
    const counting = all.filter((finding) => !known.has(finding));
    checked.push({
      file,
      // Nothing is searched for faults that are known and wait.
      ...(counting.length === 0
        ? { findings: counting, follows: new Map() }
        : yield* repairedSteps(circuit, counting, effort, createCheckedTexts(project, file.uri))),
      ...(known.size === 0 ? {} : { known: [...known] }),
      setAside: setAside(circuit),
    });
  }
  const adopted =
    name === undefined || baseline === undefined
      ? undefined
      : {
          baseline: name,
          known: checked.reduce((sum, { known = [] }) => sum + known.length, 0),
          gone: baseline.gone(files.map(({ path }) => path)),
        };
  const format = formatOf(call);
  const report = createReport(checked, cwd, read, {
    passedOver,
    ...(adopted === undefined ? {} : { adopted }),
    isWhole: call.flags.has('all'),
    isFolded: format === 'text' || format === 'github',
  });
  if (call.flags.has('staged') && files.length === 0 && passedOver.length === 0 && isComplete) {
    const isText = format === 'text';
    (isText ? host.out : host.err)('Nothing to check: no circuit is changed by what is staged.\n');
    if (isText) return exit.good;
  }
  if (files.length > 0 || isComplete) host.out(write(format, report, call, host));
  return codeOf(
    checked.flatMap(({ findings: counting }) => counting),
    input,
    call,
  );
}

function codeOf(counting: readonly Finding[], { isComplete }: Input, call: Call): number {
  if (!isComplete) return exit.cannotRun;
  return counting.some(createIsFailure(call)) ? exit.findings : exit.good;
}

function createIsFailure({ flags }: Call): (finding: Finding) => boolean {
  const strict = flags.has('strict');
  return ({ severity }) => severity === 'error' || (strict && severity === 'warning');
}

function write(format: string, report: CheckReport, call: Call, host: Host): string {
  switch (format) {
    case 'json':
      return checkJson(report);
    case 'sarif':
      return checkSarif(report, rules);
    case 'junit':
      return checkJunit(report, createIsFailure(call));
    case 'github':
      return checkGithub(report);
    default:
      return (call.flags.has('quiet') ? quietText : checkText)(report, host.colour, host.columns);
  }
}
