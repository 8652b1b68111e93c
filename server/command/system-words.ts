/** What the operating system says of a file, in plain words. */
import type { StatsBase } from 'node:fs';

/** The kind of a thing that is no file, with its article. */
export function kindOf(status: StatsBase<number> | StatsBase<bigint>): string {
  if (status.isDirectory()) return 'a folder';
  if (status.isFIFO()) return 'a pipe';
  return status.isSocket() ? 'a socket' : 'a device';
}

/** Why a file is too large, in bytes, so that two different sizes never look the same; it fits behind “this file”. */
export function describeSize(size: number, most: number): string {
  const figure = (bytes: number): string => bytes.toLocaleString('en-US');
  return `has ${figure(size)} bytes; the limit is ${figure(most)}`;
}

const reasons: Readonly<Record<string, string>> = {
  EACCES: 'its permissions do not allow it',
  EPERM: 'its permissions do not allow it',
  EROFS: 'it is on a disk that can only be read',
  ENOSPC: 'the disk is full',
  EDQUOT: 'this user’s disk quota is used up',
  EFBIG: 'it would exceed the largest file size allowed here',
  EIO: 'the disk reports an error',
  EBUSY: 'another program is using it',
  EMFILE: 'too many files are open',
  ENFILE: 'too many files are open',
  ELOOP: 'its links form a circle',
  ENAMETOOLONG: 'its name is too long',
  EBADF: 'it is not open',
};

/** Why the operating system refused, in words where they are known; they fit behind “cannot be read”. */
export function describeError(error: unknown): string {
  const word = reason(error);
  return reasons[word] ?? word;
}

/** The operating system's own word for what went wrong (`EACCES`). */
export function reason(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? String(error);
}
