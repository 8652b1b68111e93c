/** A baseline: findings that are known and wait, kept in a file, so that an old circuit can be adopted and only what is new counts. */
import { createHash } from 'node:crypto';
import { dirname, relative, resolve } from 'node:path';
import { identityOf } from '../../../language/claim.js';
import { visible } from '../../../language/escape.js';
import type { Finding, FindingClaim } from '../../../language/source.js';
import { CannotRun } from '../command.js';
import { readText } from '../reading/reading.js';
import { matchBySentence } from './old-baseline.js';

/** One known finding. */
export interface KnownFinding {
  /** Of the circuit, from the baseline's own folder, with slashes. */
  readonly path: string;
  readonly rule: string;
  /** As it was worded, for people: it says nothing about which finding this is. */
  readonly message: string;
  readonly fingerprint: string;
  /** Absent in a baseline of version 1. */
  readonly claim?: FindingClaim;
}

export interface Baseline {
  /** Those of a file's findings that are known; each entry of the baseline knows one. Asked once for each file. */
  knownAmong(file: string, findings: readonly Finding[]): ReadonlySet<Finding>;
  /** What is left of the files that were checked: findings that are no longer found. */
  gone(files: readonly string[]): readonly KnownFinding[];
}

/** Entries of version 1 are recognised by their sentences, those of version 2 by their claims. */
const version = 2;
const readable: readonly unknown[] = [1, version];
/** Bytes; some hundred thousand findings. */
const largestBaseline = 64_000_000;

/** The same while the claim has the same identity: lines, columns, layout, wording, figures and other findings leave no trace in it. */
export function fingerprint({ claim }: Pick<Finding, 'claim'>): string {
  return createHash('sha256').update(identityOf(claim)).digest('hex').slice(0, 32);
}

/** Throws `CannotRun` where there is no such file or it is no baseline. `cwd` is where the paths of files start from. */
export function readBaseline(name: string, cwd: string): Baseline {
  const path = resolve(cwd, name);
  const { entries, isOld } = parse(name, path);
  const waiting = new Map<string, KnownFinding[]>();
  for (const entry of entries) {
    const known = waiting.get(entry.path);
    if (known === undefined) waiting.set(entry.path, [entry]);
    else known.push(entry);
  }
  const match = isOld ? matchBySentence<KnownFinding> : matchByClaim;
  const place = (file: string): string => placeOf(file, path, cwd);
  return {
    knownAmong(file, findings) {
      const entries = waiting.get(place(file)) ?? [];
      const pairs = match(entries, findings);
      const taken = new Set(pairs.values());
      waiting.set(
        place(file),
        entries.filter((entry) => !taken.has(entry)),
      );
      return new Set(pairs.keys());
    },
    gone: (files) => [...new Set(files.map(place))].flatMap((file) => waiting.get(file) ?? []),
  };
}

/** The text of a baseline of that name in which all findings are known, and their number. */
export function baselineText(
  name: string,
  cwd: string,
  files: readonly { readonly path: string; readonly findings: readonly Finding[] }[],
): { readonly text: string; readonly count: number } {
  const path = resolve(cwd, name);
  const findings = files
    .flatMap((file) =>
      file.findings.map((finding): KnownFinding => ({
        path: placeOf(file.path, path, cwd),
        rule: finding.rule,
        message: finding.message,
        claim: finding.claim,
        fingerprint: fingerprint(finding),
      })),
    )
    .sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
  return { text: `${JSON.stringify({ version, findings }, null, 2)}\n`, count: findings.length };
}

/** The entry that knows each finding. */
function matchByClaim(entries: readonly KnownFinding[], findings: readonly Finding[]): ReadonlyMap<Finding, KnownFinding> {
  const waiting = new Map<string, KnownFinding[]>();
  for (const entry of entries) {
    const alike = waiting.get(entry.fingerprint);
    if (alike === undefined) waiting.set(entry.fingerprint, [entry]);
    else alike.push(entry);
  }
  const pairs = new Map<Finding, KnownFinding>();
  for (const finding of findings) {
    const entry = waiting.get(fingerprint(finding))?.shift();
    if (entry !== undefined) pairs.set(finding, entry);
  }
  return pairs;
}

function keyOf({ path, rule, message }: KnownFinding): string {
  return `${path}\n${rule}\n${message}`;
}

function placeOf(file: string, baseline: string, cwd: string): string {
  return relative(dirname(baseline), resolve(cwd, file)).replaceAll('\\', '/');
}

function parse(name: string, path: string): { readonly entries: readonly KnownFinding[]; readonly isOld: boolean } {
  const read = readText(path, largestBaseline);
  if ('problem' in read) {
    const cure = read.isThere ? '' : `; --write-baseline ${name} creates one`;
    throw new CannotRun(`can’t read the baseline ${name}: ${read.isThere ? read.problem : 'there is no such file'}${cure}`);
  }
  let data: unknown;
  try {
    data = JSON.parse(read.text, (_, value: unknown) => (typeof value === 'string' ? visible(value) : value));
  } catch {
    throw new CannotRun(`${name} is not a baseline: it is not JSON`);
  }
  if (!isBaseline(data))
    throw new CannotRun(`${name} is not a baseline of version ${readable.join(' or ')}; --write-baseline ${name} creates one`);
  return { entries: data.findings, isOld: data.version !== version };
}

function isBaseline(data: unknown): data is { readonly version: number; readonly findings: readonly KnownFinding[] } {
  if (typeof data !== 'object' || data === null || !('version' in data) || !readable.includes(data.version)) return false;
  const findings = 'findings' in data ? data.findings : undefined;
  const isEntry = (entry: unknown): boolean =>
    typeof entry === 'object' &&
    entry !== null &&
    ['path', 'rule', 'message', 'fingerprint'].every((key) => typeof (entry as Record<string, unknown>)[key] === 'string');
  return Array.isArray(findings) && findings.every(isEntry);
}
