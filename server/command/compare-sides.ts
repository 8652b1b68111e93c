/** The two circuits that a call of `compare` means: files, a file and a commit, two commits, or what git gives an external diff. */
import { basename, dirname, isAbsolute, relative, resolve } from 'node:path';
import type { Side } from '../../language/compare/index.js';
import { foundIn } from '../../language/findings.js';
import { createProject, type Project } from '../../language/project.js';
import { CannotRun, type Call, type Host } from './command.js';
import { fileAt, type NamedCommit, projectAt, rangeOf } from './reading/git.js';
import { type StoredText, textAt, textNamed } from './stored-side.js';
import { sourcesOf } from './output/output.js';
import { decodeText, diskProject, readText, uriOf } from './reading/reading.js';

/** A circuit with its findings and what it is called. */
export interface NamedSide extends Side {
  /** As the user named it; with its commit where it comes from one. */
  readonly path: string;
  /** Addresses of the files that it was read from. */
  readonly sources: readonly string[];
  /** What is to be said of where it was read from, a sentence each. */
  readonly notes?: readonly string[];
}

export interface Sides {
  readonly before: NamedSide;
  readonly after: NamedSide;
  /** One name for both, for a heading. */
  readonly name: string;
  /** The same for a page that others read: without folders of this machine. */
  readonly publicName: string;
}

/** A path for a page that others read: one outside the folder of the command, a temporary one as well, is known by its last name. */
export function publicPath(path: string): string {
  return isAbsolute(path) || path.split(/[/\\]/)[0] === '..' ? basename(path) : path;
}

function publicPair(old: string, now: string): string {
  const [before, after] = [publicPath(old), publicPath(now)];
  return before === after ? after : `${before} → ${after}`;
}

/** Throws `CannotRun` where the operands mean no two circuits. */
export function sidesOf(call: Call, host: Host, external: readonly number[]): Sides {
  const { operands } = call;
  const revision = call.values.get('git');
  if (revision !== undefined) {
    const [file, more] = operands;
    if (file === undefined || more !== undefined) throw new CannotRun('lugwork compare --git REV takes one FILE');
    return gitSides(revision, file, host);
  }
  if (external.includes(operands.length)) return externalSides(operands, host);
  const [old, now, more] = operands;
  if (old === undefined || now === undefined) throw new CannotRun('lugwork compare needs OLD NEW, or --git REV and a FILE');
  if (more !== undefined) throw new CannotRun(`lugwork compare takes OLD NEW; “${more}” is one argument too many`);
  const [before, after] = [textSide(old, host), textSide(now, host)];
  return { before, after, name: `${old} → ${now}`, publicName: publicPair(old, now) };
}

/** One file of the disk. */
export function textSide(path: string, host: Host): NamedSide {
  const read = readText(resolve(host.cwd, path));
  if ('problem' in read) throw new CannotRun(`${path}: ${read.problem}`);
  return named(diskProject(host), uriOf(path, host.cwd), path);
}

/** A file that git may have laid aside for a textconv, whose name alone is that of the circuit. */
export function strayedSide(path: string, host: Host): NamedSide {
  const full = resolve(host.cwd, path);
  if (!relative(host.cwd, full).startsWith('..')) return textSide(path, host);
  const read = readText(full);
  if ('problem' in read) throw new CannotRun(`${path}: ${read.problem}`);
  return stored(textNamed(full, basename(path), read.text, host), path);
}

function stored({ project, uri, notes }: StoredText, path: string): NamedSide {
  return { ...named(project, uri, path), notes };
}

function named(project: Project, uri: string, path: string): NamedSide {
  const circuit = project.circuit(uri);
  if (circuit === undefined) throw new CannotRun(`${path} can’t be read`);
  return { ...foundIn(circuit), path, sources: sourcesOf(uri, circuit) };
}

/** A file that one side has not is an empty circuit there. */
function gitSides(revision: string, path: string, host: Host): Sides {
  const file = resolve(host.cwd, path);
  const { before: old, after: now } = rangeOf(revision, dirname(file));
  const side = ({ commit, name }: NamedCommit): NamedSide | undefined => {
    const bytes = fileAt(commit, file);
    if (bytes === undefined) return undefined;
    const text = decodeText(bytes);
    if ('problem' in text) throw new CannotRun(`${path} at ${name}: ${text.problem}`);
    return named(projectAt(commit), uriOf(path, host.cwd), `${path} at ${name}`);
  };
  const before = side(old);
  const after = now === undefined ? onDisk(path, host) : side(now);
  if (before === undefined && after === undefined) throw new CannotRun(`${path} is in neither of the two commits`);
  const versions = `${old.name} → ${now?.name ?? 'working folder'}`;
  const none = (name: string): NamedSide => named(createProject({ read: () => '' }), uriOf(path, host.cwd), name);
  return {
    before: before ?? none(`${path}, new`),
    after: after ?? none(`${path}, gone`),
    name: `${path}, ${versions}`,
    publicName: `${publicPath(path)}, ${versions}`,
  };
}

function onDisk(path: string, host: Host): NamedSide | undefined {
  return 'text' in readText(resolve(host.cwd, path)) ? textSide(path, host) : undefined;
}

/** `path old-file old-hex old-mode new-file new-hex new-mode`; the files may be temporary, so both are read as lying at the path. */
function externalSides(operands: readonly string[], host: Host): Sides {
  const [path = '', oldFile = '', oldBlob = '', , newFile = '', newBlob = '', , now = path] = operands;
  const side = (file: string, blob: string, name: string): NamedSide => {
    const read = file === 'nul' ? { text: '' } : readText(resolve(host.cwd, file));
    if ('problem' in read) throw new CannotRun(`${name}: ${read.problem}`);
    return stored(textAt(name, read.text, blob, host), name);
  };
  return {
    before: side(oldFile, oldBlob, path),
    after: side(newFile, newBlob, now),
    name: now === path ? path : `${path} → ${now}`,
    publicName: publicPair(path, now),
  };
}
