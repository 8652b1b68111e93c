/** `lugwork blame`: the commit that last changed what a setting sounds like or reads. */
import { join, relative, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { readSettings, type AnalysedCircuit } from '../../../language/circuit/index.js';
import { compareSetting, type HeardSetting, type SettingChange } from '../../../language/compare/index.js';
import { settingLabel, withSettings } from '../../../language/electrics/index.js';
import { oneLine } from '../../../language/escape.js';
import type { Project } from '../../../language/project.js';
import { CannotRun, exit, type Command, type Host } from '../command.js';
import { choice } from '../options.js';
import { atOption, chosenOutput } from '../output-option.js';
import { changedFiles, commitOf, fileAt, lastChange, type LogEntry, projectAt, topLevel } from '../reading/git.js';
import { readCircuit } from '../reading/reading.js';
import { realOf } from '../reading/within.js';

export const blame: Command = {
  name: 'blame',
  operands: 'FILE "SETTING"',
  arity: [2, 2],
  summary: 'find the commit that last changed what a setting sounds like or reads',
  details: [
    'SETTING is written as for --set: "selector 4", "selector 4, volume 5". What sounds, hum, the meter reading, peak or corner and level are compared as `compare` does, from the working folder back through the commits that change the file or a file that it uses, whatever they were called then. A change that is not committed is found first.',
    'At a merge it goes on with the side that sounds the same. If both sides differ, the merge made the change, and it is described against its first parent.',
    "To find the commit that brought an error of `check`: `git bisect run lugwork check no-3.lug`. Where the file is missing or can’t be read in some commits (exit code 2), have them skipped: `git bisect run sh -c 'lugwork check no-3.lug; s=$?; [ $s -ne 2 ] || s=125; exit $s'`.",
    'Exit code: 0 if a commit was found or the change is not committed, 2 if the command could not run.',
  ],
  options: [{ name: 'format', choices: ['text', 'json'], summary: 'output format' }, atOption],
  examples: ['lugwork blame no-3.lug "selector 2"', 'lugwork blame --format json no-3.lug "selector 2, volume 5"'],

  run(call, host) {
    const [file = '', words = ''] = call.operands;
    const { circuit, project, file: source } = readCircuit(file, host);
    const read = readSettings(circuit, words);
    if (!('settings' in read)) throw new CannotRun(`“${words}”, character ${read.character + 1}: ${read.problem}`);
    const tip = chosenOutput(call, circuit)?.tip;
    const now = { circuit, setting: withSettings(circuit, read.settings), ...(tip === undefined ? {} : { tip }) };
    const label = [call.values.get('at') ?? '', settingLabel(circuit, now.setting) || 'default'].filter(Boolean).join(', ');
    const culprit = trace({ heard: now, project, path: fileURLToPath(source.uri) }, host);
    host.out(choice(call, blame, 'format') === 'json' ? jsonOf(culprit, label) : textOf(culprit, label));
    return exit.good;
  },
};

/** A version of the circuit, with the setting in its terms. */
interface Version {
  readonly heard: HeardSetting;
  readonly project: Project;
  /** On the disk, whether or not it is there now. */
  readonly path: string;
}

interface Culprit {
  /** Absent where the change is not committed. */
  readonly entry?: LogEntry;
  /** From the working folder of the call. */
  readonly path: string;
  /** Absent where the file is new in that commit. */
  readonly change?: SettingChange;
  /** Which of the files that were read differ. */
  readonly changed: readonly string[];
}

/** Throws `CannotRun` where the file is in no commit. */
function trace(working: Version, host: Host): Culprit {
  const root = realOf(topLevel(resolve(working.path, '..')));
  const shown = (path: string): string => relative(realOf(host.cwd), path).replaceAll('\\', '/');
  const fromRoot = (path: string): string => relative(root, realOf(path)).replaceAll('\\', '/');
  const head = commitOf('HEAD', root);
  const start = versionAt(head, { ...working, path: realOf(working.path) }, working.path);
  if (start === undefined) throw new CannotRun(`${shown(working.path)} is in no commit yet, so nothing has changed it`);
  const culpritOf = (later: Version, earlier: Earlier, entry?: LogEntry): Culprit => ({
    ...(entry === undefined ? {} : { entry }),
    path: shown(later.path),
    change: earlier.change,
    changed: differing(later, earlier.project).map(shown),
  });
  if (isOther(start.change)) return culpritOf({ ...working, path: realOf(working.path) }, start);
  let [at, version] = [head, start.version];
  for (;;) {
    // What lies outside the repository has no history there.
    const paths = filesOf(version)
      .map(fromRoot)
      .filter((path) => !path.startsWith('../'));
    const entry = lastChange(at, paths, root);
    if (entry === undefined) throw new CannotRun(`git knows no commit that changes ${paths.join(', ')}`);
    const earlier = entry.parents.map((parent) => ({ parent, found: before(entry, parent, version, root) }));
    const same = earlier.find(({ found }) => found !== undefined && !isOther(found.change));
    if (same?.found === undefined) {
      const first = earlier.find(({ found }) => found !== undefined)?.found;
      return first === undefined ? { entry, path: shown(version.path), changed: [] } : culpritOf(version, first, entry);
    }
    [at, version] = [same.parent, same.found.version];
  }
}

interface Earlier {
  readonly version: Version;
  readonly change: SettingChange;
  readonly project: Project;
}

/** The version that a parent of a commit has, under the name that the file had there; `undefined` where the commit brought the file. */
function before({ commit }: LogEntry, parent: string, version: Version, root: string): Earlier | undefined {
  const path = relative(root, version.path).replaceAll('\\', '/');
  if (fileAt(parent, version.path) !== undefined) return versionAt(parent, version, version.path);
  const renamed = changedFiles(parent, commit, root).find(({ kind, after }) => kind === 'renamed' && after === path);
  return renamed?.before === undefined ? undefined : versionAt(parent, version, join(root, renamed.before));
}

function versionAt(commit: string, { heard }: Version, path: string): Earlier | undefined {
  const project = projectAt(commit);
  const circuit: AnalysedCircuit | undefined = project.circuit(pathToFileURL(path).href);
  if (circuit === undefined) return undefined;
  const change = compareSetting(circuit, heard);
  const version = { heard: 'before' in change ? change.before : heard, project, path };
  return { version, change, project };
}

function isOther(change: SettingChange): boolean {
  return 'missing' in change || change.says.length > 0;
}

/** Paths of the circuit and of the files that it uses. */
function filesOf({ heard: { circuit }, path }: Version): readonly string[] {
  return [path, ...(circuit.files ?? []).filter((uri) => uri.startsWith('file:')).map((uri) => fileURLToPath(uri))];
}

function differing(later: Version, earlier: Project): readonly string[] {
  return filesOf(later).filter((path) => {
    const { href } = pathToFileURL(path);
    return later.project.text(href) !== earlier.text(href);
  });
}

function wordsOf({ change, path }: Culprit): readonly string[] {
  if (change === undefined) return [`${path} is new in this commit`];
  return 'missing' in change ? [`${change.missing} is new here`] : change.says;
}

function textOf(culprit: Culprit, label: string): string {
  const { entry, path, changed } = culprit;
  const head = entry === undefined ? 'not committed yet' : `${entry.short} ${entry.date} ${entry.subject}`;
  const where = changed.length === 0 ? [] : [`changed in ${changed.join(', ')}`];
  return [head, `${path}, ${label}: ${wordsOf(culprit).join('; ')}`, ...where].map((text) => `${oneLine(text)}\n`).join('');
}

function jsonOf(culprit: Culprit, setting: string): string {
  const { entry, path, change, changed } = culprit;
  const kind = change === undefined ? 'file-new' : 'missing' in change ? 'setting-new' : 'changed';
  const commit =
    entry === undefined ? null : { hash: entry.commit, short: entry.short, date: entry.date, subject: entry.subject };
  const heard = change !== undefined && 'heard' in change ? { heard: change.heard } : {};
  return `${JSON.stringify({ version: 1, setting, commit, kind, path, says: wordsOf(culprit), ...heard, changed }, null, 2)}\n`;
}
