/** What `check` hands to its output formats. */
import { relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cap, capFindings, omittedFinding, rankOf } from '../../../language/cap-findings.js';
import { followersOf, type Follows } from '../../../language/causes.js';
import type { SetAside } from '../../../language/checks/index.js';
import { linesOf } from '../../../language/grammar/index.js';
import type { Finding, Severity } from '../../../language/source.js';
import type { KnownFinding } from './baseline.js';
import type { SourceFile } from '../reading/reading.js';
import { realOf, relativeTo, repositoryOf } from '../reading/within.js';

export interface CheckedFile {
  readonly file: SourceFile;
  readonly findings: readonly Finding[];
  /** Which of them follow from which. */
  readonly follows: Follows;
  /** Searches that ended before they were through. */
  readonly incomplete?: readonly 'repairs'[];
  /** What else is to be said of the file, a sentence. */
  readonly note?: string;
  /** Findings that a baseline knows: they do not count. */
  readonly known?: readonly Finding[];
  /** What `allow` lines set aside: it does not count either. */
  readonly setAside?: readonly SetAside[];
}

/** A file as an output lists it: `findings`, `known` and `setAside` keep to the caps. */
export interface ListedFile extends CheckedFile {
  /** Those that follow from each cause, whether they are listed or not. */
  readonly followers: ReadonlyMap<Finding, readonly Finding[]>;
  readonly known: readonly Finding[];
  readonly setAside: readonly SetAside[];
  /** What is left out of `findings`, and of `known`. */
  readonly omitted: readonly Finding[];
  readonly knownOmitted: readonly Finding[];
}

/** What a baseline did. */
export interface Adopted {
  readonly baseline: string;
  readonly known: number;
  /** Findings that it knows and that are no more. */
  readonly gone: readonly KnownFinding[];
  /** How many such findings are left out of that list. */
  readonly omitted?: number;
}

/** How often a rule finds something, and in how many files. */
export interface RuleCount {
  readonly rule: string;
  readonly severity: Severity;
  readonly count: number;
  readonly files: number;
}

export interface CheckReport {
  readonly files: readonly ListedFile[];
  /** How many findings of each severity there are, those that are not listed among them. */
  readonly counts: Readonly<Record<Severity, number>>;
  /** The same by rule, the gravest and most frequent first. */
  readonly byRule: readonly RuleCount[];
  /** The folder that places of a log are relative to: the repository, else the working folder. */
  readonly root: string;
  /** What a `.lugignore` kept out. */
  readonly passedOver: readonly string[];
  /** Where a baseline was given. */
  readonly adopted?: Adopted;
  /** Shows a URI of a finding's place as a path; files outside the run (the standard library) keep their URI. */
  pathOf(uri: string): string;
  /** The way from `root` to a file, with `/`; undefined for what does not lie in it. */
  fromRoot(uri: string): string | undefined;
  /** A line of a file, counted from 0, by the file's URI; undefined where the text is not at hand. */
  lineOf(uri: string, line: number): string | undefined;
}

export interface ReportOptions {
  readonly passedOver?: readonly string[];
  readonly adopted?: Adopted;
  /** True where everything is to be listed, however much it is. */
  readonly isWhole?: boolean;
  /** True where findings that follow from another are not listed but counted there, unless everything is to be listed. */
  readonly isFolded?: boolean;
}

/** Names places in the files checked as the user named them, others relative to the working folder; texts beyond them are read with `read`. */
export function createReport(
  files: readonly CheckedFile[],
  cwd: string,
  read: (path: string) => { text: string } | { problem: string },
  { passedOver = [], adopted, isWhole = false, isFolded = false }: ReportOptions = {},
): CheckReport {
  const byUri = new Map(files.map(({ file }) => [file.uri, file]));
  const textOf = (uri: string): string | undefined => {
    const known = byUri.get(uri);
    if (known || !uri.startsWith('file:')) return known?.text;
    const other = read(fileURLToPath(uri));
    return 'text' in other ? other.text : undefined;
  };
  const lines = new Map<string, readonly string[]>();
  const root = repositoryOf(realOf(cwd)) ?? realOf(cwd);
  /** From the root, by address. */
  const paths = new Map<string, string>();
  return {
    files: files.map((file) => ({
      ...(isWhole ? wholeFile(file) : listedFile(file, isFolded)),
      followers: followersOf(file.findings, file.follows),
    })),
    counts: count(files),
    byRule: countByRule(files),
    root,
    passedOver,
    ...(adopted === undefined ? {} : { adopted: isWhole ? adopted : listedGone(adopted) }),
    pathOf: (uri) =>
      byUri.get(uri)?.path ?? (uri.startsWith('file:') ? relative(resolve(cwd), fileURLToPath(uri)).replaceAll('\\', '/') : uri),
    fromRoot: (uri) => {
      const known = paths.get(uri) ?? (uri.startsWith('file:') ? relativeTo(root, fileURLToPath(uri)) : '');
      paths.set(uri, known);
      return known === '' || /^(\.\.(\/|$)|\/|[a-z]:)/i.test(known) ? undefined : known;
    },
    lineOf(uri, line) {
      const known = lines.get(uri) ?? linesOf(textOf(uri) ?? '');
      lines.set(uri, known);
      return known[line];
    },
  };
}

/** The last entry of a file from which findings are left out, else none; `known` are those left out that a baseline knows. */
export function lastEntry({ file, omitted }: ListedFile, known: readonly Finding[] = []): readonly Finding[] {
  const all = [...omitted, ...known];
  return all.length === 0 ? [] : [omittedFinding(file.uri, all, '--all lists them')];
}

/** Causes before what follows from them, each in their order. */
export function causesFirst({ findings, follows }: Pick<ListedFile, 'findings' | 'follows'>): readonly Finding[] {
  return [...findings.filter((finding) => !follows.has(finding)), ...findings.filter((finding) => follows.has(finding))];
}

function wholeFile(file: CheckedFile): Omit<ListedFile, 'followers'> {
  return { ...file, known: file.known ?? [], setAside: file.setAside ?? [], omitted: [], knownOmitted: [] };
}

/** Known findings are listed where those that count leave room. */
function listedFile(file: CheckedFile, isFolded: boolean): Omit<ListedFile, 'followers'> {
  const { follows } = file;
  const listed = isFolded ? file.findings.filter((finding) => !follows.has(finding)) : file.findings;
  const { shown, omitted } = capFindings(listed, { follows });
  const counting = new Set(shown);
  const both = cap([...shown, ...(file.known ?? [])], {
    rankOf: (finding) => (counting.has(finding) ? -1 : rankOf(finding)),
  });
  return {
    ...file,
    findings: shown,
    known: both.shown.filter((finding) => !counting.has(finding)),
    setAside: shownOf(file.setAside ?? []),
    omitted,
    knownOmitted: both.omitted,
  };
}

function shownOf(setAside: readonly SetAside[]): readonly SetAside[] {
  const { shown } = capFindings(setAside.map(({ finding }) => finding));
  const listed = new Set(shown);
  return setAside.filter(({ finding }) => listed.has(finding));
}

/** The caps hold for what is gone from a file as for what is found in it. */
function listedGone(adopted: Adopted): Adopted {
  const paths = [...new Set(adopted.gone.map(({ path }) => path))];
  const lists = paths.map((path) =>
    cap(
      adopted.gone.filter((entry) => entry.path === path),
      { rankOf: () => 0 },
    ),
  );
  const omitted = lists.reduce((sum, list) => sum + list.omitted.length, 0);
  const gone = lists.flatMap(({ shown }) => shown);
  return omitted === 0 ? adopted : { ...adopted, gone, omitted };
}

function count(files: readonly CheckedFile[]): Record<Severity, number> {
  const counts: Record<Severity, number> = { error: 0, warning: 0, info: 0, hint: 0 };
  for (const { findings } of files) for (const finding of findings) counts[finding.severity] += 1;
  return counts;
}

function countByRule(files: readonly CheckedFile[]): readonly RuleCount[] {
  const found = new Map<string, { readonly first: Finding; readonly uris: Set<string>; count: number }>();
  for (const { file, findings } of files) {
    for (const finding of findings) {
      const known = found.get(finding.rule) ?? { first: finding, uris: new Set(), count: 0 };
      found.set(finding.rule, known);
      known.count += 1;
      known.uris.add(file.uri);
    }
  }
  return [...found.values()]
    .map(({ first: { rule, severity }, uris, count }) => ({ rule, severity, count, files: uris.size }))
    .sort((a, b) => rankOf(a) - rankOf(b) || b.count - a.count || (a.rule < b.rule ? -1 : 1));
}
