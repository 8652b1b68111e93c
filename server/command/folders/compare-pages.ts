/** Which two versions of many circuits a call of `compare` means, and the page about them in the format that is asked for. */
import { statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { Change } from '../../../language/compare/index.js';
import { CannotRun, type Call, type Host } from '../command.js';
import type { Sides } from '../compare-sides.js';
import { rangeOf, topLevel } from '../reading/git.js';
import { relativeTo } from '../reading/within.js';
import { circuitChange, compareFolders, type FolderChange, type FolderOptions } from './folder-change.js';
import { pageGithub } from './page-github.js';
import { pageJson } from './page-json.js';
import { pageMarkdown } from './page-markdown.js';
import { pageText } from './page-text.js';
import { releaseNote } from './release-note.js';
import { uriIn, versionAt, versionOnDisk, type Version } from './version.js';

/** The comparison of two folders, of a folder in two commits, or of all circuits that use a file of parts; undefined where one circuit is meant. */
export function folderChangeOf(call: Call, host: Host): FolderChange | undefined {
  const { operands } = call;
  const options: FolderOptions = { isWhole: call.flags.has('all'), ...(host.progress && { progress: host.progress }) };
  const revision = call.values.get('git');
  const [first = '', second] = operands;
  if (revision !== undefined) return second === undefined ? gitChange(revision, first, options, host) : undefined;
  if (operands.length !== 2 || second === undefined) return undefined;
  const folders = [first, second].map((path) => resolve(host.cwd, path));
  const areFolders = folders.map(isFolder);
  if (!areFolders.includes(true)) return undefined;
  if (areFolders.includes(false)) throw new CannotRun(`lugwork compare takes two files or two folders, not one of each`);
  const [before, after] = [first, second].map((path, index) => versionOnDisk(path, path, folders[index] ?? '', host)) as [
    Version,
    Version,
  ];
  return compareFolders(before, after, options);
}

function gitChange(revision: string, path: string, options: FolderOptions, host: Host): FolderChange | undefined {
  const full = resolve(host.cwd, path);
  if (isFolder(full)) return gitFolders(revision, full, options, host);
  // A commit may have a folder that the disk has not.
  const isFile = statSync(full, { throwIfNoEntry: false }) !== undefined || path.endsWith('.lug');
  if (!isFile) return gitFolders(revision, full, options, host);
  const { before, after } = rangeOf(revision, dirname(full));
  const root = topLevel(dirname(full));
  const only = relativeTo(root, full);
  const sides = [
    versionAt(before, root),
    after === undefined ? workingFolder(root, root, host) : versionAt(after, root),
  ] as const;
  const circuits = sides.flatMap((side) => side.project.circuit(uriIn(side, only)) ?? []);
  // A file of parts is compared by the circuits that use it.
  return circuits.length > 0 && circuits.every(({ isLibrary }) => isLibrary)
    ? compareFolders(...sides, { ...options, only })
    : undefined;
}

function gitFolders(revision: string, folder: string, options: FolderOptions, host: Host): FolderChange {
  const { before, after } = rangeOf(revision, folder);
  const now = after === undefined ? workingFolder(folder, topLevel(folder), host) : versionAt(after, folder);
  return compareFolders(versionAt(before, folder), now, options);
}

function workingFolder(folder: string, root: string, host: Host): Version {
  return versionOnDisk('working folder', folder, root, host);
}

function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
}

/** One circuit as a page, for formats that only pages have. */
export function pageOf(change: Change, { before, after }: Sides, host: Host): FolderChange {
  return {
    root: host.cwd,
    before: before.path,
    after: after.path,
    files: [],
    circuits: [circuitChange(change, after.circuit, { path: after.path, because: [], lines: {}, isEdited: true })],
    compared: 1,
    sources: [...before.sources, ...after.sources],
  };
}

/** The page in a format; throws `CannotRun` for one that only a single circuit has. */
export function writePage(format: string, page: FolderChange, host: Host): string {
  switch (format) {
    case 'markdown':
      return pageMarkdown(page);
    case 'json':
      return pageJson(page);
    case 'github':
      return pageGithub(page);
    case 'release-note':
      return releaseNote(page);
    case 'svg':
      throw new CannotRun('--format svg draws one circuit; name one file');
    default:
      return pageText(page, host.colour);
  }
}
