/** A git repository made for one test, in which git runs under a fixed name and settings. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { folderWith } from './process.js';

const settings = ['user.name=Alder Lane', 'user.email=bench@example.invalid', 'commit.gpgsign=false', 'core.autocrlf=false'];

export interface Repository {
  readonly folder: string;
  /** Runs git there and returns what it prints. Throws where it fails. */
  git(...words: readonly string[]): string;
  /** Writes files of the working folder; `null` deletes one. */
  write(files: Readonly<Record<string, string | null>>): void;
  /** Writes files and commits everything; returns the commit's full name. */
  commit(subject: string, files?: Readonly<Record<string, string | null>>): string;
}

/** A repository with one commit, “As built”, of these files, on the branch `main`. */
export function repositoryWith(files: Readonly<Record<string, string>>): Repository {
  const folder = folderWith(files);
  const git = (...words: readonly string[]): string =>
    execFileSync('git', [...settings.flatMap((setting) => ['-c', setting]), ...words], {
      cwd: folder,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
    });
  const write: Repository['write'] = (changed) => {
    for (const [path, content] of Object.entries(changed)) {
      const full = join(folder, path);
      if (content === null) rmSync(full);
      else {
        mkdirSync(dirname(full), { recursive: true });
        writeFileSync(full, content);
      }
    }
  };
  const commit: Repository['commit'] = (subject, changed = {}) => {
    write(changed);
    git('add', '-A');
    git('commit', '-q', '--no-verify', '-m', subject);
    return git('rev-parse', 'HEAD').trim();
  };
  git('init', '-q', '-b', 'main');
  commit('As built');
  return { folder, git, write, commit };
}
