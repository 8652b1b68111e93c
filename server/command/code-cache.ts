/** What V8 compiled of the command, kept in the user's cache folder. It only saves time: where it can't be read or written, the command runs without it. */
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { isAbsolute, join } from 'node:path';

export interface CodeCache {
  /** Absent where nothing is kept, or what is kept was damaged: V8 itself doesn't check that and would end the process. */
  read(): Buffer | undefined;
  write(compiled: Buffer): void;
}

/** Milliseconds after which what another version or another Node.js kept is removed: thirty days. */
const longUnused = 30 * 24 * 3_600_000;

/**
 * The store for one subcommand, since each compiles other functions. `build` names what the compiled code was made from; `subcommand` is a word that the
 * user wrote, whatever it is. Absent where the user has no cache folder or has turned it off. A folder in which others may write is neither read nor
 * written: compiled code is run unseen.
 */
export function createCodeCache(build: string, subcommand = ''): CodeCache | undefined {
  const parent = cacheFolder(process.env, process.platform);
  if (parent === undefined || !/^[a-z-]{0,20}$/.test(subcommand)) return undefined;
  const folder = join(parent, `${build}-node-${process.versions.node}-${process.arch}`);
  const file = join(folder, `${subcommand || 'none'}.v8`);
  return {
    read() {
      try {
        if (!isOnlyOurs(folder)) return undefined;
        const bytes = readFileSync(file);
        const compiled = bytes.subarray(hashLength);
        return bytes.subarray(0, hashLength).equals(hashOf(compiled)) ? compiled : undefined;
      } catch {
        return undefined;
      }
    },
    write(compiled) {
      try {
        mkdirSync(folder, { recursive: true, mode: 0o700 });
        if (!isOnlyOurs(folder)) return;
        // Two may end at once; each moves its finished file into place.
        const waiting = `${file}.${process.pid}`;
        writeFileSync(waiting, Buffer.concat([hashOf(compiled), compiled]), { mode: 0o600 });
        renameSync(waiting, file);
        removeUnused(parent, folder);
      } catch {
        // A full or locked disk costs the next start its compiling, nothing else.
      }
    },
  };
}

const hashLength = 20;

/** Guards against damage alone, for which SHA-1 is good enough and quick. */
function hashOf(bytes: Buffer): Buffer {
  return createHash('sha1').update(bytes).digest();
}

/** The folder in which the user's programs keep what can be made again: `LUGWORK_CACHE`, where empty none, else that of the system. */
export function cacheFolder(env: NodeJS.ProcessEnv, platform: NodeJS.Platform): string | undefined {
  const chosen = env['LUGWORK_CACHE'];
  if (chosen !== undefined) return isAbsolute(chosen) ? chosen : undefined;
  const home = env['HOME'] ?? homedir();
  // XDG Base Directory Specification 0.8: a path that is not absolute counts as absent.
  const standard = {
    darwin: join(home, 'Library', 'Caches'),
    win32: env['LOCALAPPDATA'] ?? join(home, 'AppData', 'Local'),
  };
  const xdg = env['XDG_CACHE_HOME'];
  const base = xdg !== undefined && isAbsolute(xdg) ? xdg : (standard[platform as keyof typeof standard] ?? join(home, '.cache'));
  return isAbsolute(base) ? join(base, 'lugwork') : undefined;
}

/** True for a folder that belongs to this user and that nobody else may write to. Windows has no such bits; there its place in the profile keeps it. */
function isOnlyOurs(folder: string): boolean {
  const { uid, mode } = statSync(folder);
  return process.getuid === undefined || (uid === process.getuid() && (mode & 0o022) === 0);
}

function removeUnused(parent: string, used: string): void {
  for (const name of readdirSync(parent)) {
    const folder = join(parent, name);
    if (folder !== used && Date.now() - statSync(folder).mtimeMs > longUnused) rmSync(folder, { recursive: true, force: true });
  }
}
