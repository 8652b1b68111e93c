/** The process around the command: arguments in, streams and exit code out. It is bundled by itself, and `start.ts` loads it. */
import { fstatSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { createLayoutThread } from '../layout-thread.js';
import { CannotRun, exit } from './command.js';
import { reason, describeError } from './system-words.js';
import { faultOf, run, sentence } from './run.js';
import { createProgress } from './output/progress.js';
import { showsColours } from './output/terminal.js';
import { writeAll } from './output/write-file.js';

const notWritten = (error: unknown): string => `can’t write the standard output: ${describeError(error)}`;

/** Runs the words after `lugwork` and sets the exit code; `drawing` is the script that lays out drawings in a thread. */
export async function main(words: readonly string[], drawing: URL): Promise<void> {
  guardStreams();
  const cwd = workingFolder();
  if (cwd === undefined) {
    err(sentence('the current folder no longer exists or can’t be read'));
    process.exitCode = exit.cannotRun;
    return;
  }
  const progress = createProgress(
    (text) => writeAll(2, Buffer.from(text)),
    () => process.stderr.columns || 80,
  );
  const write = isFile(1) ? writeFile : (text: string) => void process.stdout.write(text);
  process.exitCode = await run(words, {
    cwd,
    columns: process.stdout.columns || 80,
    isTerminal: Boolean(process.stdout.isTTY),
    colour: showsColours(process.env, Boolean(process.stdout.isTTY)),
    out(text) {
      progress.clear();
      write(text);
    },
    err(text) {
      progress.clear();
      err(text);
    },
    ...(process.stderr.isTTY && process.env['TERM'] !== 'dumb' ? { progress: progress.show } : {}),
    readPage: (path) => readPage(new URL(`../${path}`, drawing)),
    // A second time ends the process, as the system does.
    onInterrupt: (end) => (['SIGINT', 'SIGTERM'] as const).forEach((signal) => process.once(signal, end)),
    serve: () => serve(new URL('./server.cjs', drawing)),
    startLayout: () => createLayoutThread(drawing),
  });
  progress.clear();
}

/** Loads the language server, which takes over the standard streams and ends the process when its editor asks for it. */
function serve(server: URL): Promise<never> {
  try {
    createRequire(server)(fileURLToPath(server));
  } catch (error) {
    throw new CannotRun(
      `can’t load the language server that is installed with lugwork (${fileURLToPath(server)}): ${describeError(error)}`,
    );
  }
  return new Promise(() => undefined);
}

/** The editor's own copy of the command comes without these pages. */
function readPage(page: URL): string {
  try {
    return readFileSync(page, 'utf8');
  } catch (error) {
    throw new CannotRun(`can’t read the page that is installed with lugwork (${fileURLToPath(page)}): ${describeError(error)}`);
  }
}

function guardStreams(): void {
  process.stdout.on('error', (error) => {
    // Whoever reads may stop early (`lugwork check … | head -1`): that is no fault and says nothing.
    if (reason(error) === 'EPIPE') process.exit();
    process.stderr.write(sentence(notWritten(error)));
    process.exit(exit.cannotRun);
  });
  // There is nowhere left to say it.
  process.stderr.on('error', (error) => process.exit(reason(error) === 'EPIPE' ? undefined : exit.cannotRun));
  process.on('uncaughtException', (error) => {
    process.stderr.write(faultOf(error));
    process.exit(exit.cannotRun);
  });
}

/** A stream would take a full disk for success where the disk takes a part of the text. */
function writeFile(text: string): void {
  try {
    writeAll(1, Buffer.from(text));
  } catch (error) {
    throw new CannotRun(notWritten(error));
  }
}

function err(text: string): void {
  process.stderr.write(text);
}

function workingFolder(): string | undefined {
  try {
    return process.cwd();
  } catch {
    return undefined;
  }
}

/** True for a file or a device that is no terminal; pipes are left to the stream, which waits for slow readers. */
function isFile(handle: number): boolean {
  try {
    const status = fstatSync(handle);
    return status.isFile() || (status.isCharacterDevice() && !process.stdout.isTTY);
  } catch {
    return false;
  }
}
