/** Commits and texts of files as a git repository has them. Git is run, without a shell, only where the user asks for what it keeps. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { basename, dirname, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createProject, type Project } from '../../../language/project.js';
import { CannotRun } from '../command.js';
import { decodeText } from './reading.js';

/** A commit's full name, and what the user is shown for it. */
export interface NamedCommit {
  readonly commit: string;
  readonly name: string;
}

/** The commits that a revision names; without `after` the working folder is meant. */
export interface CommitRange {
  readonly before: NamedCommit;
  readonly after?: NamedCommit;
}

/** How a file differs between two states. Paths are relative to the folder that was asked about, with `/`. */
export interface ChangedFile {
  readonly kind: 'added' | 'deleted' | 'modified' | 'renamed';
  /** Absent for one that was added. */
  readonly before?: string;
  /** Absent for one that was deleted. */
  readonly after?: string;
}

/** The most that one run of git may print. Bytes. */
const mostBytes = 1024 * 1024 * 1024;

/** The full name of the commit that a revision means. Throws `CannotRun` where git, the repository or the revision is missing. */
export function commitOf(revision: string, folder: string): string {
  // A word that begins with a hyphen would be an option of git's.
  if (revision.startsWith('-') || revision.trim() === '') throw new CannotRun(`--git “${revision}” is no revision`);
  return line(
    folder,
    ['rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{commit}`],
    `there is no commit ${revision} in this repository`,
  );
}

/**
 * Reads `REV`, `A..B` or `A...B`, which is B beside the merge base of both; an end that is left out is HEAD. Throws `CannotRun` where a commit or
 * the merge base is missing.
 */
export function rangeOf(revision: string, folder: string): CommitRange {
  if (revision.trim() === '') throw new CannotRun(`--git “${revision}” is no revision`);
  const [start = '', end, more] = revision.split(/\.{2,3}/);
  if (more !== undefined) throw new CannotRun(`--git “${revision}” names more than two commits`);
  const named = (name: string): NamedCommit => ({ commit: commitOf(name, folder), name });
  const before = named(start || 'HEAD');
  if (end === undefined) return { before };
  const after = named(end || 'HEAD');
  if (!revision.includes('...')) return { before, after };
  const unrelated = `${before.name} and ${after.name} have no merge base, because their histories share no commit`;
  const commit = line(folder, ['merge-base', before.commit, after.commit], unrelated);
  return { before: { commit, name: `${shortName(commit, folder)} (merge base of ${before.name} and ${after.name})` }, after };
}

/** The commit's name, as short as git makes it in that repository. */
export function shortName(commit: string, folder: string): string {
  return line(folder, ['rev-parse', '--short', '--end-of-options', commit], `there is no commit ${commit} in this repository`);
}

/** The root of the repository that the folder is in. Throws `CannotRun` where there is none. */
export function topLevel(folder: string): string {
  return resolve(line(folder, ['rev-parse', '--show-toplevel'], `${folder} is in no git repository`));
}

/**
 * The files of a folder that differ between two commits or, where `to` is undefined, between a commit and the working folder; in that, .lug files
 * that git neither tracks nor ignores count as added. A file that moved into or out of the folder is added or deleted there. Sorted by path.
 */
export function changedFiles(from: string, to: string | undefined, folder: string): readonly ChangedFile[] {
  const inside = prefixOf(folder);
  const scope = inside === '' ? '--no-relative' : `--relative=${inside}`;
  const commits = ['--end-of-options', from, ...(to === undefined ? [] : [to])];
  const files = new Map(differing(folder, [scope, ...commits]).map((file) => [file.after ?? file.before ?? '', file]));
  if (to === undefined) for (const after of untracked(folder)) files.set(after, { kind: 'added', after });
  return [...files].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, file]) => file);
}

/** The hash that a file's text would have as that path of the repository; the path is relative to the folder. */
export function blobOf(file: string, path: string, folder: string): string {
  return line(folder, ['hash-object', `--path=${path}`, '--', resolve(file)], `git can’t read ${file}`);
}

/** A commit after which a file has another text than before. */
export interface TextChange {
  readonly commit: string;
  /** Its first parent; absent for a commit without one. */
  readonly parent?: string;
  /** From the repository's root. */
  readonly path: string;
  /** The hashes of both texts, of zeros where there is none. */
  readonly before: string;
  readonly after: string;
}

/**
 * The newest commits of some revisions (`HEAD`, `--all`) that change the files of that name, at most `most` of them, newest first. A path that
 * git has to quote is left out.
 */
export function textChanges(revisions: 'HEAD' | '--all', name: string, most: number, root: string): readonly TextChange[] {
  const words = ['log', '--full-history', '--no-renames', '--raw', '--no-abbrev', '--no-ext-diff', '--format=%H %P'];
  const out = git(
    root,
    ['-c', 'core.quotePath=false', ...words, `-n${most}`, revisions, '--', `:(top,glob)**/${literal(name)}`],
    '',
  );
  let [commit = '', parent]: (string | undefined)[] = [];
  return out
    .toString('utf8')
    .split('\n')
    .flatMap((text): readonly TextChange[] => {
      if (!text.startsWith(':')) {
        if (text !== '') [commit = '', parent] = text.split(' ');
        return [];
      }
      const [head = '', path = ''] = text.split('\t');
      const [, , before = '', after = ''] = head.split(' ');
      if (path.startsWith('"')) return [];
      return [{ commit, ...(parent ? { parent } : {}), path, before, after }];
    });
}

/** The names of the branches, tags and other references whose commits are newest, at most `most`; HEAD is the first. */
export function newestTips(most: number, root: string): readonly string[] {
  const words = ['for-each-ref', `--count=${most}`, '--sort=-committerdate', '--format=%(refname)'];
  return ['HEAD', ...git(root, words, '').toString('utf8').split('\n').filter(Boolean)];
}

/** A commit as `git log` words it. */
export interface LogEntry {
  readonly commit: string;
  readonly short: string;
  /** When its author made it, `2026-11-25`. */
  readonly date: string;
  readonly subject: string;
  readonly parents: readonly string[];
}

/** The newest commit, from that one back, that changes one of the files, given from the root; `undefined` where none does. */
export function lastChange(start: string, paths: readonly string[], root: string): LogEntry | undefined {
  const words = ['--literal-pathspecs', 'log', '-n1', '--format=%H%x00%h%x00%as%x00%s%x00%P', '--end-of-options', start, '--'];
  const out = line(root, [...words, ...paths], `the history of ${paths.join(', ')} can’t be read`);
  const [commit = '', short = '', date = '', subject = '', parents = ''] = out.split('\0');
  return commit === '' ? undefined : { commit, short, date, subject, parents: parents.split(' ').filter(Boolean) };
}

/** The hash of what is at each `REV:PATH`; undefined where there is nothing. */
export function hashesAt(names: readonly string[], root: string): readonly (string | undefined)[] {
  const out = git(root, ['cat-file', '--batch-check=%(objectname)'], '', `${names.join('\n')}\n`);
  return out
    .toString('utf8')
    .split('\n')
    .map((text) => (/^[0-9a-f]+$/.test(text) ? text : undefined));
}

/** What is staged: the files in which the index differs from the last commit, from the repository’s root. */
export function stagedChanges(root: string): readonly ChangedFile[] {
  return differing(root, ['--no-relative', '--cached']);
}

/** A file of the index. */
export interface IndexEntry {
  /** From the repository’s root, with `/`. */
  readonly path: string;
  /** The hash of its text. */
  readonly blob: string;
  readonly isLink: boolean;
  /** True where a merge has left several versions; the blob is one of them. */
  readonly isUnmerged: boolean;
}

/** Every file of the index of the repository with that root, without those that `git add -N` only announces: no commit has them. */
export function indexEntries(root: string): readonly IndexEntry[] {
  const announced = new Set(differing(root, ['--no-relative', '--diff-filter=A']).map(({ after }) => after));
  const entries = names(git(root, ['ls-files', '--stage', '-z'], `the index of ${root} can’t be read`)).map((entry) => {
    const [head = '', path = ''] = entry.split(/\t(.*)/s);
    const [mode, blob = '', stage] = head.split(' ');
    return { path, blob, isLink: mode === '120000', isUnmerged: stage !== '0' };
  });
  return entries.filter(({ path }) => !announced.has(path));
}

/** The bytes of blobs, by their hashes; all in one run of git. */
export function blobsOf(hashes: readonly string[], folder: string): ReadonlyMap<string, Buffer> {
  if (hashes.length === 0) return new Map();
  const out = git(folder, ['cat-file', '--batch'], 'git can’t read its objects', `${hashes.join('\n')}\n`);
  const found = new Map<string, Buffer>();
  // Each is a line “HASH blob SIZE”, its bytes and a line end.
  for (let at = 0; at < out.length;) {
    const end = out.indexOf(10, at);
    const [hash = '', kind, size] = out.toString('latin1', at, end).split(' ');
    if (kind !== 'blob') throw new CannotRun(`git has no text ${hash}`);
    found.set(hash, out.subarray(end + 1, end + 1 + Number(size)));
    at = end + 1 + Number(size) + 1;
  }
  return found;
}

/** The paths of all files of a folder in that commit, relative to the folder, with `/`; none where the commit has no such folder. */
export function filesAt(commit: string, folder: string): readonly string[] {
  const inside = prefixOf(folder);
  const words = ['ls-tree', '-r', '-z', '--name-only', '--full-tree', '--end-of-options', commit];
  // A path of ls-tree is no pattern: it is taken by its letters.
  const scope = inside === '' ? [] : ['--', inside];
  return names(git(folder, [...words, ...scope], `${folder} can’t be listed`)).map((path) => path.slice(inside.length));
}

/** In place of a commit, the index, as in git's own `:PATH`. */
export const theIndex = '';

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
    const { below } = placeOf(dirname(path));
    return git(dirname(path), ['cat-file', 'blob', `${commit}:./${below}${basename(path)}`], '');
  } catch (error) {
    if (error instanceof CannotRun) return undefined;
    throw error;
  }
}

function differing(folder: string, words: readonly string[]): readonly ChangedFile[] {
  const fixed = ['diff', '--name-status', '-z', '-M', '--no-ext-diff', '--no-textconv', '--ignore-submodules'];
  const entries = names(git(folder, [...fixed, ...words, '--'], `${folder} can’t be compared`)).values();
  const next = (): string => entries.next().value ?? '';
  return Array.from(entries, (status) => changedFile(status, next));
}

function changedFile(status: string, next: () => string): ChangedFile {
  const path = next();
  switch (status[0]) {
    case 'A':
      return { kind: 'added', after: path };
    case 'D':
      return { kind: 'deleted', before: path };
    case 'R':
      return { kind: 'renamed', before: path, after: next() };
    default:
      return { kind: 'modified', before: path, after: path };
  }
}

/** The .lug files of a folder that git neither tracks nor ignores. */
function untracked(folder: string): readonly string[] {
  if (!existsSync(folder)) return [];
  return names(git(folder, ['ls-files', '--others', '--exclude-standard', '-z', '--', '*.lug'], `${folder} can’t be listed`));
}

/** The folder's path from the root of its repository, with a `/` behind, as git writes it; empty for the root itself. */
function prefixOf(folder: string): string {
  return `${line(folder, ['rev-parse', '--show-prefix'], `${folder} is in no git repository`)}${placeOf(folder).below}`;
}

/** The nearest folder that is there, since a commit may have folders that the disk has not, and the way down from it with a `/` behind. */
function placeOf(folder: string): { readonly home: string; readonly below: string } {
  const full = resolve(folder);
  let home = full;
  while (!existsSync(home) && dirname(home) !== home) home = dirname(home);
  return { home, below: relative(home, full).replaceAll('\\', '/').replace(/.$/, '$&/') };
}

/** A name by its letters in a pattern of git's. */
function literal(name: string): string {
  return name.replace(/[*?[\]\\]/g, '\\$&');
}

/** What git prints with `-z`. */
function names(out: Buffer): readonly string[] {
  return out.toString('utf8').split('\0').slice(0, -1);
}

/** The one line that git prints. */
function line(folder: string, words: readonly string[], problem: string): string {
  return git(folder, words, problem)
    .toString('utf8')
    .replace(/\r?\n.*$/s, '');
}

/** What git prints in a folder, or in the nearest one that is there. Throws `CannotRun` with the problem, and what git says of it. */
function git(folder: string, words: readonly string[], problem: string, input?: string): Buffer {
  try {
    // A repository may name a program that watches its files: none but git is run.
    return execFileSync('git', ['-C', placeOf(folder).home, '-c', 'core.fsmonitor=false', ...words], {
      maxBuffer: mostBytes,
      stdio: [input === undefined ? 'ignore' : 'pipe', 'pipe', 'pipe'],
      ...(input === undefined ? {} : { input }),
      windowsHide: true,
      env: { ...environment(), GIT_OPTIONAL_LOCKS: '0', GIT_NO_LAZY_FETCH: '1', GIT_TERMINAL_PROMPT: '0' },
    });
  } catch (error) {
    const { code, stderr } = error as NodeJS.ErrnoException & { readonly stderr?: Buffer };
    if (code === 'ENOENT') throw new CannotRun('git can’t be run: it is not installed, or the folder is missing');
    const said = stderr?.toString('utf8').trim().split('\n')[0] ?? '';
    throw new CannotRun(problem === '' ? said : said === '' ? problem : `${problem} (${said})`);
  }
}

/** What git tells the programs that it starts is meant from their working folder; here it runs in others. */
function environment(): NodeJS.ProcessEnv {
  const { GIT_DIR: directory, GIT_WORK_TREE: tree, GIT_INDEX_FILE: index } = process.env;
  return {
    ...process.env,
    ...(index === undefined ? {} : { GIT_INDEX_FILE: resolve(index) }),
    ...(directory === undefined ? {} : { GIT_DIR: resolve(directory), GIT_WORK_TREE: resolve(tree ?? '.') }),
  };
}
