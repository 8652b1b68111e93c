/** `lugwork check`: what is wrong with the wiring. */
import { createCheckedTexts } from '../../../language/causes.js';
import { oneLine } from '../../../language/escape.js';
import { rules } from '../../../language/checks/index.js';
import { findings, setAside } from '../../../language/findings.js';
import type { Finding } from '../../../language/source.js';
import { baselineText, readBaseline } from '../output/baseline.js';
import type { Project } from '../../../language/project.js';
import { CannotRun, exit, type Call, type Command, type Host } from '../command.js';
import { checkGithub } from '../formats/check-github.js';
import { checkJson } from '../formats/check-json.js';
import { counted } from '../../../language/circuit/index.js';
import { checkJunit } from '../formats/check-junit.js';
import { checkSarif } from '../formats/check-sarif.js';
import { checkText, quietText } from '../formats/check-text.js';
import { choice, numberOption } from '../options.js';
import { forceOption, isStandardOutput, sourcesOf, writeOutput } from '../output/output.js';
import { circuitOf, diskProject, readFiles, readPiped, readText, standardInput, type ReadFiles } from '../reading/reading.js';
import { readStaged } from '../reading/staged.js';
import { realOf } from '../reading/within.js';
import { explained } from '../explain.js';
import { withRepairsFound } from '../repairs.js';
import { createReport, type CheckedFile, type CheckReport } from '../output/report.js';
import { mostEffort } from '../../stopped-search.js';

export const check: Command = {
  name: 'check',
  operands: 'FILE…',
  arity: [0, Infinity],
  summary: 'check the wiring and suggest fixes',
  details: [
    'Looks for faults that any guitar can have (an open lug, ungrounded metal, a silent position …) and checks the circuit against its `expect` lines. Each finding names its rule; `allow RULE on NAME "why"` in the file suppresses one; SARIF lists it as suppressed in source, with that reason.',
    'The search for fixes has a budget of work for each file, some ten seconds at most, and gives the same result on every machine. If the budget runs out, the report says so and offers what was found. --effort 4 searches four times as long; --effort 0 skips the search.',
    'FILE may be `-`: the circuit is then read from the standard input, and --path says where it belongs, so that its `use` lines find their files.',
    'With --staged it checks what a commit would change, as the index has it and whatever the working folder has: each circuit that is staged, and each that uses a staged, moved or deleted file, directly or through another. FILE is then optional and limits which of them are checked. Git is run for this, without a shell.',
    'Use a baseline to adopt an old circuit: --write-baseline saves the current findings in a file. With --baseline, findings in that file do not count and are not listed; those that no longer occur are listed as fixed. A finding is recognised by its rule, its subjects and the settings in which it occurs, even if its line has moved.',
    'Findings that one repair, or one corrected word, would clear together are listed once, at their cause: “and 12 more follow from it”. Counts, the exit code and baselines include all of them; --all lists them.',
    'At most 200 findings of one rule and 1,000 of one file are listed, errors first. The last line says how many are left out; --all lists them. Counts, the exit code and baselines include all of them.',
    'Exit code: 0 if there are no errors, 1 if there are errors (with --strict, also if there are warnings), 2 if a file could not be read.',
  ],
  options: [
    { name: 'format', choices: ['text', 'json', 'sarif', 'junit', 'github'], summary: 'output format of the findings' },
    { name: 'strict', summary: 'exit with 1 for warnings as well' },
    { name: 'quiet', summary: 'print findings alone: no summary, and nothing where there are none' },
    { name: 'effort', value: 'N', summary: 'budget of the search for fixes, as a factor from 0 to 100; 1 by default' },
    { name: 'baseline', value: 'FILE', summary: 'file of known findings; only others count' },
    { name: 'write-baseline', value: 'FILE', summary: 'save the current findings as known, and exit with 0' },
    {
      name: 'explain',
      value: 'RULE',
      summary: 'show the page of a rule: what it finds, why it matters, an example and its repair',
    },
    { name: 'all', summary: 'list every finding, also those that follow from another, without limits' },
    { name: 'staged', summary: 'check what is staged for the next commit, for a pre-commit hook' },
    forceOption,
    { name: 'path', value: 'NAME', summary: 'path to assume for the circuit from the standard input' },
  ],
  examples: [
    'lugwork check no-3.lug',
    'lugwork check --strict circuits',
    'lugwork check --quiet --strict circuits',
    'lugwork check --format json circuits > findings.json',
    'lugwork check --baseline known.json circuits',
    'lugwork check --staged --strict',
    'lugwork check --explain floating-metal',
    'lugwork check - --path no-3.lug < draft.txt',
  ],

  run(call, host) {
    const rule = call.values.get('explain');
    if (rule !== undefined) return explain(rule, call, host);
    const effort = numberOption(call, 'effort', 1, 0, mostEffort);
    const { files, isComplete, passedOver, project, read, cwd } = readInput(call, host);
    const found = files.map((file) => ({ file, findings: findings(circuitOf(project, file.uri)) }));
    const written = call.values.get('write-baseline');
    if (written !== undefined) {
      if (!isComplete) return exit.cannotRun;
      const all = found.map(({ file, findings: own }) => ({ path: file.path, findings: own }));
      const { text, count } = baselineText(written, host.cwd, all);
      const sources = files.flatMap(({ uri }) => sourcesOf(uri, circuitOf(project, uri)));
      writeOutput(written, { text, sources, form: 'JSON' }, call.flags.has('force'), host);
      const write = isStandardOutput(written, host.cwd) ? host.err : host.out;
      write(`${counted(count, 'finding')} of ${counted(files.length, 'file')} written to ${oneLine(written)}\n`);
      return exit.good;
    }
    const name = call.values.get('baseline');
    const baseline = name === undefined ? undefined : readBaseline(name, host.cwd);
    const checked = found.map(({ file, findings: all }): CheckedFile => {
      const known = baseline?.knownAmong(file.path, all) ?? new Set<Finding>();
      const counting = all.filter((finding) => !known.has(finding));
      return {
        file,
        // Nothing is searched for faults that are known and wait.
        ...(counting.length === 0
          ? { findings: counting, follows: new Map() }
          : withRepairsFound(circuitOf(project, file.uri), counting, effort, createCheckedTexts(project, file.uri))),
        ...(known.size === 0 ? {} : { known: [...known] }),
        setAside: setAside(circuitOf(project, file.uri)),
      };
    });
    const adopted =
      name === undefined || baseline === undefined
        ? undefined
        : {
            baseline: name,
            known: checked.reduce((sum, { known = [] }) => sum + known.length, 0),
            gone: baseline.gone(files.map(({ path }) => path)),
          };
    const format = choice(call, check, 'format');
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
    const strict = call.flags.has('strict');
    const isFailure = (finding: Finding) => finding.severity === 'error' || (strict && finding.severity === 'warning');
    if (files.length > 0 || isComplete) host.out(write(format, report, isFailure, call.flags.has('quiet'), host));
    if (!isComplete) return exit.cannotRun;
    return checked.some(({ findings }) => findings.some(isFailure)) ? exit.findings : exit.good;
  },
};

function explain(rule: string, { operands }: Call, host: Host): number {
  if (operands.length > 0) throw new CannotRun('--explain shows a page and checks nothing: leave out FILE');
  host.out(explained(rule, host));
  return exit.good;
}

interface Input extends ReadFiles {
  readonly project: Project;
  /** Reads files that are not among those checked. */
  readonly read: (path: string) => { text: string } | { problem: string };
  /** Where the paths start from. */
  readonly cwd: string;
}

/** What the call means: what is staged, or files, one of which may come from the standard input. */
function readInput(call: Call, host: Host): Input {
  const { operands } = call;
  const path = call.values.get('path');
  const isPiped = operands.includes(standardInput);
  if (call.flags.has('quiet') && choice(call, check, 'format') !== 'text')
    throw new CannotRun('--quiet is for text; the other formats have no summary to leave out');
  if (path !== undefined && !isPiped) throw new CannotRun('--path says what the standard input is, and needs - as FILE');
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
  return { ...whole, files: [piped, ...read.files.filter(({ uri }) => uri !== piped.uri)] };
}

function write(
  format: string,
  report: CheckReport,
  isFailure: (finding: Finding) => boolean,
  isQuiet: boolean,
  host: Host,
): string {
  switch (format) {
    case 'json':
      return checkJson(report);
    case 'sarif':
      return checkSarif(report, rules);
    case 'junit':
      return checkJunit(report, isFailure);
    case 'github':
      return checkGithub(report);
    default:
      return (isQuiet ? quietText : checkText)(report, host.colour, host.columns);
  }
}
