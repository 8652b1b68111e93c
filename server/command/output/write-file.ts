/** How the command writes a file: a whole new file beside the old one, which then takes its place in one step. */
import { createHash, randomBytes } from 'node:crypto';
import * as fs from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { kindOf, reason, describeError } from '../system-words.js';

/** What became of a write. */
export interface Written {
  /** Why the file could not be written, in words that fit behind “cannot be written: ”; it is then as it was before. */
  readonly problem?: string;
  /** What its owner may not expect, a sentence without its full stop. */
  readonly remark?: string;
}

/**
 * Gives a file this text. Whatever happens on the way (a full disk, the end of the process), the file holds either all of the old text or
 * all of the new. A link stays a link and its target gets the text; the permissions stay; what its permissions protect is not replaced.
 */
export function replaceFile(path: string, text: string): Written {
  try {
    const before = fs.statSync(path, { throwIfNoEntry: false });
    if (before === undefined && fs.lstatSync(path, { throwIfNoEntry: false }))
      return { problem: 'the target of this link does not exist' };
    if (before === undefined) return replace(path, undefined, text);
    if (!before.isFile()) return { problem: `this is ${kindOf(before)}, not a file` };
    // Only the folder's permissions count for a replacement, so the file's own are asked for.
    fs.accessSync(path, fs.constants.W_OK);
    const written = replace(fs.realpathSync(path), before, text);
    return before.nlink > 1 && written.problem === undefined
      ? { remark: 'the file has other names (hard links); they keep the old text' }
      : written;
  } catch (error) {
    return { problem: describeError(error) };
  }
}

/**
 * What the new file is called until it takes its place: in the same folder, hidden, with an ending of its own so that no walk takes it for
 * a circuit. The name follows from that of the target, so that a later write finds and removes what a killed process left behind.
 */
export function nameWhileWritten(target: string): string {
  const hash = createHash('sha256').update(basename(target)).digest('hex');
  return join(dirname(target), `.lugwork-${hash.slice(0, 12)}.tmp`);
}

/** Writes all bytes to an open file: a system that takes only some of them at a time is asked again. */
export function writeAll(handle: number, bytes: Uint8Array): void {
  for (let done = 0; done < bytes.length;) {
    try {
      done += fs.writeSync(handle, bytes, done);
    } catch (error) {
      // A pipe whose reader is slow.
      if (reason(error) !== 'EAGAIN') throw error;
      pause(5);
    }
  }
}

/** On Windows a scanner or an indexer can hold a file for a moment: milliseconds to wait between the attempts. */
const waits = process.platform === 'win32' ? [10, 20, 50, 100, 200, 400, 800] : [];

/** Moves a file to another name, again after each wait while another program holds it. */
export function moveFile(from: string, to: string, rename = fs.renameSync, between: readonly number[] = waits): void {
  for (const wait of between) {
    try {
      rename(from, to);
      return;
    } catch (error) {
      if (!['EPERM', 'EACCES', 'EBUSY'].includes(reason(error))) throw error;
      pause(wait);
    }
  }
  rename(from, to);
}

function replace(target: string, before: fs.Stats | undefined, text: string): Written {
  let waiting: OpenFile;
  try {
    waiting = openBeside(target, before === undefined ? 0o666 : before.mode & 0o777);
  } catch (error) {
    return { problem: folderProblem(error) };
  }
  try {
    try {
      writeAll(waiting.handle, Buffer.from(text));
      if (before !== undefined) keepOwner(waiting.handle, before);
      fs.fsyncSync(waiting.handle);
    } finally {
      fs.closeSync(waiting.handle);
    }
    moveFile(waiting.path, target);
    return {};
  } catch (error) {
    fs.rmSync(waiting.path, { force: true });
    return { problem: describeError(error) };
  }
}

/** The group must be the same, since the permissions are given to it; the owner stays where the system allows it. */
function keepOwner(handle: number, { uid, gid, mode }: fs.Stats): void {
  // Windows knows neither.
  if (process.platform !== 'win32') {
    const own = fs.fstatSync(handle);
    if (own.gid !== gid) fs.fchownSync(handle, -1, gid);
    if (own.uid !== uid && process.geteuid?.() === 0) fs.fchownSync(handle, uid, -1);
  }
  fs.fchmodSync(handle, mode & 0o7777);
}

interface OpenFile {
  readonly path: string;
  readonly handle: number;
}

/** A file of this age that waits to take another's place is left over from a process that was killed. Milliseconds. */
const leftOver = 60_000;

/** Opens the new file; one of that name that was left over is removed, and where another process writes to the same target it gets a name of its own. */
function openBeside(target: string, mode: number): OpenFile {
  const usual = nameWhileWritten(target);
  const old = fs.lstatSync(usual, { throwIfNoEntry: false });
  if (old?.isFile() && Date.now() - old.mtimeMs > leftOver) fs.rmSync(usual, { force: true });
  try {
    return { path: usual, handle: fs.openSync(usual, 'wx', mode) };
  } catch (error) {
    if (reason(error) !== 'EEXIST') throw error;
    const other = usual.replace(/tmp$/, `${randomBytes(4).toString('hex')}.tmp`);
    return { path: other, handle: fs.openSync(other, 'wx', mode) };
  }
}

function folderProblem(error: unknown): string {
  const word = reason(error);
  if (word === 'ENOENT') return 'its folder does not exist';
  return word === 'EACCES' || word === 'EPERM' ? 'the permissions of its folder do not allow a new file' : describeError(error);
}

function pause(milliseconds: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, milliseconds);
}
