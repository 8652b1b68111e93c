/** A circuit that comes through a pipe: the standard input, read to its end and no further than a file may be long. */
import { readSync } from 'node:fs';
import { reason, describeError } from '../system-words.js';

/** All bytes of the standard input, or why there are none; it stops one byte after `most`. */
export function readStandardInput(most: number): { readonly bytes: Buffer } | { readonly problem: string } {
  const pieces: Buffer[] = [];
  const piece = Buffer.alloc(1 << 16);
  for (let size = 0; size <= most;) {
    let count: number;
    try {
      count = readSync(0, piece);
    } catch (error) {
      const word = reason(error);
      // On Windows the end of a pipe is an error.
      if (word === 'EOF') break;
      if (word !== 'EAGAIN') return { problem: `the standard input can’t be read (${describeError(error)})` };
      // Whoever writes has not got any further yet.
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
      continue;
    }
    if (count === 0) break;
    pieces.push(Buffer.from(piece.subarray(0, count)));
    size += count;
  }
  return { bytes: Buffer.concat(pieces) };
}
