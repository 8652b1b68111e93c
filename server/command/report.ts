/** What `check` hands to its output formats. */
import { relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Finding, Severity } from '../../language/source.js';
import type { KnownFinding } from './baseline.js';
import type { SourceFile } from './reading.js';

export interface CheckedFile {
  readonly file: SourceFile;
  readonly findings: readonly Finding[];
  /** Searches that ended before they were through. */
  readonly incomplete?: readonly 'repairs'[];
  /** What else is to be said of the file, a sentence. */
  readonly note?: string;
  /** Findings that a baseline knows: they do not count. */
  readonly known?: readonly Finding[];
}

/** What a baseline did. */
export interface Adopted {
  readonly baseline: string;
  readonly known: number;
  /** Findings that it knows and that are no more. */
  readonly gone: readonly KnownFinding[];
}

export interface CheckReport {
  readonly files: readonly CheckedFile[];
  /** What a `.lugignore` kept out. */
  readonly passedOver: readonly string[];
  /** Where a baseline was given. */
  readonly adopted?: Adopted;
  /** Shows a URI of a finding's place as a path; files outside the run (the standard library) keep their URI. */
  pathOf(uri: string): string;
  /** The text of a file by URI, for source lines; undefined where it is not at hand. */
  textOf(uri: string): string | undefined;
}

/** Names places in the files checked as the user named them, others relative to the working folder; texts beyond them are read with `read`. */
export function createReport(
  files: readonly CheckedFile[],
  cwd: string,
  read: (path: string) => { text: string } | { problem: string },
  passedOver: readonly string[] = [],
  adopted?: Adopted,
): CheckReport {
  const byUri = new Map(files.map(({ file }) => [file.uri, file]));
  return {
    files,
    passedOver,
    ...(adopted === undefined ? {} : { adopted }),
    pathOf: (uri) =>
      byUri.get(uri)?.path ?? (uri.startsWith('file:') ? relative(resolve(cwd), fileURLToPath(uri)).replaceAll('\\', '/') : uri),
    textOf(uri) {
      const known = byUri.get(uri);
      if (known || !uri.startsWith('file:')) return known?.text;
      const other = read(fileURLToPath(uri));
      return 'text' in other ? other.text : undefined;
    },
  };
}

/** How many findings of each severity. */
export function count(files: readonly CheckedFile[]): Record<Severity, number> {
  const counts: Record<Severity, number> = { error: 0, warning: 0, info: 0, hint: 0 };
  for (const { findings } of files) for (const finding of findings) counts[finding.severity] += 1;
  return counts;
}

/** `1 error`, `3 errors`. */
export function counted(number: number, word: string): string {
  return `${number} ${word}${number === 1 ? '' : 's'}`;
}
