/** Where a command's result goes: the standard output, or what -o names; never onto a file that the command has read. */
import { statSync, openSync, closeSync, realpathSync, type BigIntStats } from 'node:fs';
import { devNull } from 'node:os';
import { extname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Circuit } from '../../../language/circuit/model.js';
import { CannotRun, type Call, type Host, type OptionDefinition } from '../command.js';
import { kindOf, describeError } from '../system-words.js';
import { replaceFile, writeAll } from './write-file.js';

export const outputOption: OptionDefinition = {
  name: 'output',
  short: 'o',
  value: 'FILE',
  summary: 'output file; the standard output by default',
};

export const forceOption: OptionDefinition = {
  name: 'force',
  summary: 'overwrite an existing .lug file, or use a file name that suggests another format',
};

/** What a file holds. */
export type Form = 'a circuit' | 'SVG' | 'JSON' | 'HTML' | 'Markdown' | 'comma-separated values' | 'plain text';

const endings: Readonly<Record<string, string>> = {
  '.svg': 'SVG',
  '.json': 'JSON',
  '.html': 'HTML',
  '.htm': 'HTML',
  '.md': 'Markdown',
  '.markdown': 'Markdown',
  '.csv': 'comma-separated values',
  '.txt': 'plain text',
  '.png': 'PNG',
  '.jpg': 'JPEG',
  '.jpeg': 'JPEG',
  '.pdf': 'PDF',
  '.lug': 'a circuit',
};

export interface Result {
  readonly text: string;
  /** Addresses of all files that it was made from. */
  readonly sources: readonly string[];
  /** Where the form was chosen by its name, or any name is right, there is none. */
  readonly form?: Form;
}

/** The addresses of a circuit's own file and of those that it uses. */
export function sourcesOf(uri: string, circuit: Circuit): readonly string[] {
  return [uri, ...(circuit.files ?? [])];
}

/** Writes the result where `-o` says. Throws `CannotRun` where that is not possible or would destroy a circuit. */
export function writeResult(result: Result, call: Call, host: Host): void {
  const name = call.values.get('output');
  if (name === undefined) host.out(result.text);
  else writeOutput(name, result, call.flags.has('force'), host);
}

/** Writes the result under that name; `isForced` where `--force` is given. Throws `CannotRun` as `writeResult` does. */
export function writeOutput(name: string, { text, sources, form }: Result, isForced: boolean, host: Host): void {
  const path = resolve(host.cwd, name);
  const stream = streamOf(path);
  if (stream === 1) return host.out(text);
  if (stream !== undefined) return writeThrough(name, text, () => stream);
  const there = statSync(path, { bigint: true, throwIfNoEntry: false });
  if (there?.isFIFO() || there?.isCharacterDevice() || isNull(name)) {
    return writeThrough(name, text, () => openSync(path, 'w'));
  }
  if (there?.isDirectory() || /[/\\]$/.test(name)) throw new CannotRun(`${name} is a folder; name a file in it`);
  if (there !== undefined && !there.isFile()) throw new CannotRun(`${name} is ${kindOf(there)}, so nothing was written`);
  if (there !== undefined) refuseSources(name, there, sources);
  if (!isForced) refuseName(name, there === undefined ? path : realpathSync(path), there !== undefined, form);
  const { problem, remark } = replaceFile(path, text);
  if (problem !== undefined) throw new CannotRun(`${name} can’t be written: ${problem}`);
  if (remark !== undefined) host.err(`lugwork: ${name}: ${remark}\n`);
}

/** True where what is written under that name comes out of the command's own standard output. */
export function isStandardOutput(name: string, cwd: string): boolean {
  return streamOf(resolve(cwd, name)) === 1;
}

/** The number of an open stream that a path stands for. */
function streamOf(path: string): number | undefined {
  if (path === '/dev/stdout') return 1;
  if (path === '/dev/stderr') return 2;
  const number = /^\/(?:dev|proc\/self)\/fd\/(\d{1,5})$/.exec(path)?.[1];
  return number === undefined ? undefined : Number(number);
}

function isNull(name: string): boolean {
  return process.platform === 'win32' && (/^nul$/i.test(name) || name === devNull);
}

/** Pipes, terminals and open streams get the text as it is: there is no file to replace. */
function writeThrough(name: string, text: string, open: () => number): void {
  try {
    const handle = open();
    try {
      writeAll(handle, Buffer.from(text));
    } finally {
      if (handle > 2) closeSync(handle);
    }
  } catch (error) {
    throw new CannotRun(`${name} can’t be written: ${describeError(error)}`);
  }
}

/** By what the names lead to, so that neither a link nor a second name of the same file gets through. */
function refuseSources(name: string, there: BigIntStats, sources: readonly string[]): void {
  for (const uri of sources) {
    const source = uri.startsWith('file:') ? statSync(fileURLToPath(uri), { bigint: true, throwIfNoEntry: false }) : undefined;
    if (source !== undefined && source.ino === there.ino && source.dev === there.dev) {
      throw new CannotRun(`${name} is one of the input files, and writing would destroy it; name another file`);
    }
  }
}

function refuseName(name: string, real: string, isThere: boolean, form: Form | undefined): void {
  const endsIn = (path: string): string => extname(path).toLowerCase();
  const isCircuit = endsIn(name) === '.lug' || endsIn(real) === '.lug';
  if (isCircuit && isThere) throw new CannotRun(`${name} is a circuit; use --force to overwrite it`);
  const promised = isCircuit ? 'a circuit' : endings[endsIn(name)];
  if (promised === undefined || (form === undefined ? !isCircuit : promised === form)) return;
  throw new CannotRun(`${name} would contain ${form ?? 'something else'}, not ${promised}; choose another name, or use --force`);
}
