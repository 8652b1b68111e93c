/** Runs the command in the process of the tests, from its sources: for what a command says, writes and answers, many times faster than a process each. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Host } from '../../server/command/command.js';
import { run } from '../../server/command/run.js';
import { elkLayout } from '../../server/elk.js';
import { root } from './checkout.js';
import type { Ended } from './process.js';

/**
 * `lugwork WORDS` in a folder, as `lugwork` of `process.js` gives it; drawings are laid out without a thread. Throws for a command that has to wait
 * (`inProcessAsync`) and for one that reads its standard input. Streams, signals, limits and other users need a process.
 */
export function inProcess(words: readonly string[], cwd: string = root): Ended {
  const { host, said } = listener(words, cwd);
  const before = process.cwd();
  process.chdir(cwd);
  try {
    const code = run(words, host);
    if (typeof code !== 'number') throw new Error(`“lugwork ${words.join(' ')}” has to wait for something: use inProcessAsync.`);
    return { code, ...said };
  } finally {
    process.chdir(before);
  }
}

/** The same for a command that may have to wait. */
export async function inProcessAsync(words: readonly string[], cwd: string = root): Promise<Ended> {
  const { host, said } = listener(words, cwd);
  const before = process.cwd();
  process.chdir(cwd);
  try {
    const code = await run(words, host);
    return { code, ...said };
  } finally {
    process.chdir(before);
  }
}

/** A host of a command that keeps what it says. */
function listener(words: readonly string[], cwd: string): { host: Host; said: { out: string; err: string } } {
  if (words.includes('-')) throw new Error('The standard input of the tests has no end: run this as a process.');
  const said = { out: '', err: '' };
  let end: (() => void) | undefined;
  const host: Host = {
    cwd,
    columns: 80,
    colour: false,
    out(text) {
      said.out += text;
      end?.();
    },
    err: (text) => void (said.err += text),
    readPage: (path) => readFileSync(join(root, path), 'utf8'),
    // A command that waits for an end has it once it has said something.
    onInterrupt: (given) => void (end = given),
    startLayout: () => ({ layout: elkLayout, dispose: () => undefined }),
  };
  return { host, said };
}
