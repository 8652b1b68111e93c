/** `check --watch`: a fresh report whenever a file of the call, or one that such a file uses, has changed. */
import { resolve } from 'node:path';
import { counted } from '../../../language/circuit/index.js';
import { oneLine } from '../../../language/escape.js';
import type { Steps } from '../../../language/steps.js';
import { CannotRun, exit, type Call, type Host } from '../command.js';
import { findFiles } from '../reading/files.js';
import { standardInput } from '../reading/reading.js';
import { fixingOf, formatOf } from './definition.js';
import { createBell, createFolderWatch, foldersOf, stampOf } from './folder-watch.js';
import { checkSteps } from './once.js';

/** Milliseconds of checking after which events are looked at. */
const slice = 30;

/** Checks again and again, until the user ends it. Throws `CannotRun` for what can't be watched. */
export async function watchFiles(call: Call, host: Host): Promise<number> {
  refuse(call);
  const bell = createBell();
  const folders = createFolderWatch(bell.ring, host);
  let isEnded = false;
  host.onInterrupt?.(() => {
    isEnded = true;
    bell.ring();
  });
  let used: readonly string[] = [];
  try {
    while (!isEnded) {
      folders.watch(foldersOf(pathsOf(call, used, host)));
      const before = stateOf(call, used, host);
      const found = await inTurns(checkGuarded(call, underHead(host)), () => {
        return isEnded || (bell.hasRung() && differs(before, stateOf(call, used, host)));
      });
      if (found === undefined) continue;
      used = found;
      // What only this check has found was read just now; all else must be as it was before.
      const now = stateOf(call, used, host);
      const seen: State = { ...before, stamps: new Map([...now.stamps, ...before.stamps]) };
      if (!call.flags.has('quiet')) host.out(`\nWatching ${counted(now.stamps.size, 'file')} for changes; Ctrl+C ends.\n`);
      for (;;) {
        // Watched first and looked at then: what is made in a folder that has just come is seen one way or the other.
        folders.watch(foldersOf(pathsOf(call, used, host)));
        if (isEnded || differs(seen, stateOf(call, used, host))) break;
        await bell.next();
      }
    }
  } finally {
    folders.close();
  }
  return exit.good;
}

function refuse(call: Call): void {
  const isMeant = (option: string): void => {
    throw new CannotRun(`--watch reports to someone who is editing, and ${option} does not fit that`);
  };
  if (call.operands.includes(standardInput)) isMeant('-');
  if (fixingOf(call) !== undefined) isMeant(call.flags.has('diff') ? '--diff' : '--fix');
  for (const option of ['staged', 'write-baseline']) {
    if (call.flags.has(option) || call.values.has(option)) isMeant(`--${option}`);
  }
  if (formatOf(call) !== 'text') isMeant(`--format ${formatOf(call)}`);
  if (call.operands.length === 0) throw new CannotRun('lugwork check needs FILE…');
}

/** A check that goes on watching where it can't run now: a file is away for a moment, a baseline is half written. */
function* checkGuarded(call: Call, host: Host): Steps<readonly string[]> {
  try {
    const { used } = yield* checkSteps(call, host);
    return used;
  } catch (error) {
    if (!(error instanceof CannotRun)) throw error;
    host.err(`lugwork: ${error.message}\n`);
    return [];
  }
}

/** Runs steps and lets events through between them; `undefined` where it was given up. */
async function inTurns<T>(steps: Steps<T>, isGivenUp: () => boolean): Promise<T | undefined> {
  for (let pause = Date.now() + slice; ;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    if (Date.now() < pause) continue;
    await new Promise((resume) => setImmediate(resume));
    if (isGivenUp()) return undefined;
    pause = Date.now() + slice;
  }
}

/** What a report depends on: which files there are, and when each was written. */
interface State {
  readonly listing: string;
  readonly stamps: ReadonlyMap<string, string>;
}

function stateOf(call: Call, used: readonly string[], host: Host): State {
  const files = findFiles(call.operands, host.cwd).files.map(({ path }) => resolve(host.cwd, path));
  const baseline = call.values.get('baseline');
  const others = [...used, ...(baseline === undefined ? [] : [resolve(host.cwd, baseline)])];
  return {
    listing: JSON.stringify(files),
    stamps: new Map([...files, ...others].map((path) => [path, stampOf(path)])),
  };
}

function differs(before: State, now: State): boolean {
  return before.listing !== now.listing || [...now.stamps].some(([path, stamp]) => before.stamps.get(path) !== stamp);
}

/** The files of a state and what the call names. */
function pathsOf(call: Call, used: readonly string[], host: Host): readonly string[] {
  return [...call.operands.map((path) => resolve(host.cwd, path)), ...stateOf(call, used, host).stamps.keys()];
}

/** The same host, with a head above what comes out first. */
function underHead(host: Host): Host {
  let head = headOf(host);
  return {
    ...host,
    out(text) {
      host.out(head + text);
      head = '';
    },
  };
}

/** The time of a report, on a clear screen where there is one. */
function headOf({ isTerminal, cwd }: Host): string {
  const start = isTerminal === true && process.env['TERM'] !== 'dumb' ? '\u001b[2J\u001b[H' : '\n';
  return `${start}${new Date().toTimeString().slice(0, 8)}  ${oneLine(cwd)}\n\n`;
}
