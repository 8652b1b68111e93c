/** Texts of files as a git repository has them. Git is run, without a shell, only where the user asks for a revision. */
import { execFileSync } from 'node:child_process';
import { basename, dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createProject, type Project } from '../../../language/project.js';
import { CannotRun } from '../command.js';
import { decodeText } from './reading.js';

/** The most that one file may hold. */
const mostBytes = 64 * 1024 * 1024;

/** The full name of the commit that a revision means. Throws `CannotRun` where git, the repository or the revision is missing. */
export function commitOf(revision: string, folder: string): string {
  // A word that begins with a hyphen would be an option of git's.
  if (revision.startsWith('-') || revision.trim() === '') throw new CannotRun(`--git “${revision}” is no revision`);
  return git(
    folder,
    ['rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{commit}`],
    `there is no commit ${revision} in this repository`,
  )
    .toString('utf8')
    .trim();
}

/** A project in which every file is read as that commit has it. */
export function projectAt(commit: string): Project {
  return createProject({
    read(uri) {
      if (!uri.startsWith('file:')) return undefined;
      const bytes = fileAt(commit, fileURLToPath(uri));
      const read = bytes === undefined ? undefined : decodeText(bytes);
      return read !== undefined && 'text' in read ? read.text : undefined;
    },
  });
}

/** The file's bytes in that commit; `undefined` where it has no such file. */
export function fileAt(commit: string, path: string): Buffer | undefined {
  try {
    return git(dirname(path), ['cat-file', 'blob', `${commit}:./${basename(path)}`], '');
  } catch (error) {
    if (error instanceof CannotRun) return undefined;
    throw error;
  }
}

function git(folder: string, words: readonly string[], problem: string): Buffer {
  try {
    return execFileSync('git', ['-C', resolve(folder), ...words], {
      maxBuffer: mostBytes,
      stdio: ['ignore', 'pipe', 'pipe'],
      windowsHide: true,
      env: { ...process.env, GIT_OPTIONAL_LOCKS: '0', GIT_NO_LAZY_FETCH: '1', GIT_TERMINAL_PROMPT: '0' },
    });
  } catch (error) {
    const { code, stderr } = error as NodeJS.ErrnoException & { readonly stderr?: Buffer };
    if (code === 'ENOENT') throw new CannotRun('git can’t be run: it is not installed, or the folder is missing');
    const said = stderr?.toString('utf8').trim().split('\n')[0] ?? '';
    throw new CannotRun(problem === '' ? said : said === '' ? problem : `${problem} (${said})`);
  }
}
