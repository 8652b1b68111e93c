/** Reads circuits from the disk for the pipeline: one project for a run, files by URI, texts checked for UTF-8. */
import { readFileSync, realpathSync, statSync, type Stats } from 'node:fs';
import { devNull } from 'node:os';
import { resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { TextDecoder } from 'node:util';
import type { AnalysedCircuit } from '../../../language/circuit/model.js';
import { circuitFromJson } from '../../../language/circuit/index.js';
import { visible } from '../../../language/grammar/index.js';
import { createProject, type Project, type ProjectHost } from '../../../language/project.js';
import { CannotRun, type Host } from '../command.js';
import { findFiles } from './files.js';
import { kindOf, reason, describeError, describeSize } from '../system-words.js';
import { readStandardInput } from './standard-input.js';
import { isWithinProject } from './within.js';

/** A .lug file that was read. */
export interface SourceFile {
  /** As the user named it. */
  readonly path: string;
  readonly uri: string;
  readonly text: string;
  /** True where the file begins with a byte order mark; the text is without it. */
  readonly hasMark?: boolean;
}

/** The operand that means the standard input. */
export const standardInput = '-';

/** The files that were read of those a call means. */
export interface ReadFiles {
  readonly files: readonly SourceFile[];
  /** False where one could not be read; it was reported on stderr. */
  readonly isComplete: boolean;
  readonly passedOver: readonly string[];
}

/** Reads every file the operands mean. Those that cannot be read, and links that are not followed, are reported on stderr. */
export function readFiles(operands: readonly string[], host: Host): ReadFiles {
  const files: SourceFile[] = [];
  let isComplete = true;
  const found = findFiles(operands, host.cwd);
  for (const { path, problem } of found.files) {
    const read: Text | Omit<Unread, 'isThere'> = problem === undefined ? readText(resolve(host.cwd, path)) : { problem };
    if ('text' in read) files.push({ ...read, path, uri: uriOf(path, host.cwd) });
    else {
      isComplete = false;
      const hint = read.isPipe && operands.includes(path) ? '; `lugwork check -` reads from a pipe' : '';
      host.err(`lugwork: ${path}: ${read.problem}${hint}\n`);
    }
  }
  if (found.leadingOut.length > 0)
    host.err(`lugwork: links not followed because they lead out of the folder: ${found.leadingOut.join(', ')}\n`);
  return { files, isComplete, passedOver: found.passedOver };
}

/** Reads the standard input as the file of that name; `what` says what it should be. Throws `CannotRun` where it is no text. */
export function readPiped(name: string, host: Host, what = 'a circuit'): SourceFile {
  const read = readStandardInput(largestFile);
  const problem = (why: string): CannotRun => new CannotRun(`the standard input is not ${what}: ${why}`);
  if ('problem' in read) throw new CannotRun(read.problem);
  if (read.bytes.length > largestFile) throw problem(`it has more than ${largestFile.toLocaleString('en-US')} bytes`);
  const text = decodeText(read.bytes);
  if ('problem' in text) throw problem(text.problem);
  return { ...text, path: name, uri: uriOf(name, host.cwd) };
}

/**
 * A project over the disk: `use` stays within the project of the file that is read, but where the host lets it out. A file whose name ends
 * in `.json` is a circuit that `lugwork circuit` wrote.
 */
export function diskProject(host?: Pick<Host, 'cwd' | 'outside'>): Project {
  const project = createProject(diskReader(host));
  const written = new Map<string, AnalysedCircuit>();
  return {
    ...project,
    circuit(uri) {
      if (!uri.endsWith('.json')) return project.circuit(uri);
      const circuit = written.get(uri) ?? writtenCircuit(uri);
      written.set(uri, circuit);
      return circuit;
    },
  };
}

/** Throws `CannotRun` where the file holds no circuit. */
function writtenCircuit(uri: string): AnalysedCircuit {
  const path = fileURLToPath(uri);
  const read = readText(path);
  if ('problem' in read) throw new CannotRun(`${path}: ${read.problem}`);
  let json: unknown;
  try {
    json = JSON.parse(read.text, (_, value: unknown) => (typeof value === 'string' ? visible(value) : value));
  } catch {
    throw new CannotRun(`${path} is not a circuit: it is not JSON`);
  }
  const circuit = circuitFromJson(json, { uriOf: (name) => (/^[a-z]{2,}:/i.test(name) ? name : new URL(name, uri).href) });
  if ('problem' in circuit) throw new CannotRun(`${path} is not a circuit: ${circuit.problem}`);
  return circuit.circuit;
}

/** A project over the disk in which one file has another text. */
export function projectWith(uri: string, text: string, host?: Pick<Host, 'cwd' | 'outside'>): Project {
  const disk = diskReader(host);
  return createProject({ ...disk, read: (asked) => (asked === uri ? text : disk.read(asked)) });
}

function diskReader({ cwd, outside }: Pick<Host, 'cwd' | 'outside'> = { cwd: process.cwd() }): Required<ProjectHost> {
  /** Why a file that is there was not read. */
  const problems = new Map<string, string>();
  const read = (uri: string): string | undefined => {
    if (!uri.startsWith('file:')) return undefined;
    const found = readText(fileURLToPath(uri));
    if ('text' in found) return found.text;
    if (found.isThere) problems.set(uri, `is not read: ${found.problem}`);
    return undefined;
  };
  return {
    read,
    refuses(uri, from) {
      if (!uri.startsWith('file:') || !from.startsWith('file:')) return undefined;
      if (outside !== true && !isWithinProject(fileURLToPath(uri), fileURLToPath(from), cwd))
        return 'is outside the project (the repository or folder of the file that uses it): run lugwork from a folder above both, or allow it with --outside';
      return problems.get(uri);
    },
  };
}

/** The circuit of a file that was read; of any other there is none, which is a bug. */
export function circuitOf(project: Pick<Project, 'circuit'>, uri: string): AnalysedCircuit {
  const circuit = project.circuit(uri);
  if (circuit === undefined) throw new Error(`${uri} was not read`);
  return circuit;
}

/** The one circuit that a command works on. Throws `CannotRun` where the operand is not one circuit. Errors in its text are counted on stderr: the rest of it stands all the same. */
export function readCircuit(operand: string, host: Host): { file: SourceFile; circuit: AnalysedCircuit; project: Project } {
  const { files } = readFiles([operand], host);
  const [file] = files;
  if (!file) throw new CannotRun(`${operand} can’t be read as a circuit`);
  if (files.length > 1) throw new CannotRun(`${operand} contains ${files.length} .lug files; name one of them`);
  const project = diskProject(host);
  const circuit = circuitOf(project, file.uri);
  if (circuit.isLibrary) throw new CannotRun(`${file.path} declares no parts, so there is nothing to calculate`);
  const errors = circuit.problems.filter((problem) => problem.severity === 'error').length;
  if (errors > 0) {
    host.err(
      `lugwork: ${file.path} has ${errors} ${errors === 1 ? 'error' : 'errors'} in its text, so this may not be what you intended; \`lugwork check\` lists them\n`,
    );
  }
  return { file, circuit, project };
}

/** The file's URI, by which the project and its findings name it. */
export function uriOf(path: string, cwd: string): string {
  return pathToFileURL(resolve(cwd, path)).href;
}

/** The largest file that is read, in bytes: more than the longest text can have. */
export const largestFile = 4_000_000;

/** A text without the byte order mark that it may begin with. */
export interface Text {
  readonly text: string;
  readonly hasMark?: boolean;
}

/** Why a file was not read. */
export interface Unread {
  readonly problem: string;
  /** True where something of that name is there. */
  readonly isThere: boolean;
  readonly isPipe?: boolean;
}

/** A file's text, or in plain words why there is none. The null device is an empty file, as Git hands it over for one that is missing. */
export function readText(path: string, largest = largestFile): Text | Unread {
  let bytes: Buffer;
  try {
    const status = statSync(path);
    if (isNullDevice(path, status)) return { text: '' };
    // A pipe or a device may never end.
    if (!status.isFile()) {
      return { problem: `this is ${kindOf(status)}, not a file`, isThere: true, isPipe: status.isFIFO() };
    }
    if (status.size > largest) return { problem: `this file ${describeSize(status.size, largest)}`, isThere: true };
    bytes = readFileSync(path);
  } catch (error) {
    return {
      problem: `this file can’t be read (${describeError(error)})`,
      isThere: !['ENOENT', 'ENOTDIR'].includes(reason(error)),
    };
  }
  const text = decodeText(bytes);
  return 'text' in text ? text : { ...text, isThere: true };
}

/** Bytes as UTF-8 text, or in plain words why they are none. */
export function decodeText(bytes: Buffer): Text | { problem: string } {
  const isWide = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  if (!isWide && bytes.includes(0)) return { problem: 'this file contains bytes that are not text' };
  try {
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    return text.startsWith('\uFEFF') ? { text: text.slice(1), hasMark: true } : { text };
  } catch {
    return { problem: `this file is not UTF-8 text${isWide ? ' but UTF-16' : ''}; save it as UTF-8` };
  }
}

function isNullDevice(path: string, status: Stats): boolean {
  return status.isCharacterDevice() && realpathSync(path) === devNull;
}
