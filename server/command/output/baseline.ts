/** A baseline: findings that are known and wait, kept in a file, so that an old circuit can be adopted and only what is new counts. */
import { createHash } from 'node:crypto';
import { dirname, relative, resolve } from 'node:path';
import { visible } from '../../../language/escape.js';
import type { Finding } from '../../../language/source.js';
import { CannotRun } from '../command.js';
import { readText } from '../reading/reading.js';

/** One known finding. */
export interface KnownFinding {
  /** Of the circuit, from the baseline's own folder, with slashes. */
  readonly path: string;
  readonly rule: string;
  readonly message: string;
  readonly fingerprint: string;
}

export interface Baseline {
  /** Takes one finding of that file for a known one; each is taken once. */
  takes(file: string, finding: Finding): boolean;
  /** What is left of the files that were checked: findings that are no more. */
  gone(files: readonly string[]): readonly KnownFinding[];
}

const version = 1;
/** Bytes; some hundred thousand findings. */
const largestBaseline = 64_000_000;

/**
 * The same while rule, sentence and the things it speaks of are: lines, columns, layout and other findings leave no trace in it. A finding
 * whose sentence holds another figure is another finding.
 */
export function fingerprint({ rule, message, subjects }: Finding): string {
  return createHash('sha256')
    .update([rule, message, ...[...subjects].sort()].join('\n'))
    .digest('hex')
    .slice(0, 32);
}

/** Throws `CannotRun` where there is no such file or it is no baseline. `cwd` is where the paths of files start from. */
export function readBaseline(name: string, cwd: string): Baseline {
  const path = resolve(cwd, name);
  const known = parse(name, path);
  const waiting = new Map<string, KnownFinding[]>();
  for (const entry of known) {
    const key = `${entry.path}\n${entry.fingerprint}`;
    waiting.set(key, [...(waiting.get(key) ?? []), entry]);
  }
  const place = (file: string): string => placeOf(file, path, cwd);
  return {
    takes: (file, finding) => waiting.get(`${place(file)}\n${fingerprint(finding)}`)?.shift() !== undefined,
    gone(files) {
      const checked = new Set(files.map(place));
      return [...waiting.values()].flat().filter((entry) => checked.has(entry.path));
    },
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
        fingerprint: fingerprint(finding),
      })),
    )
    .sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
  return { text: `${JSON.stringify({ version, findings }, null, 2)}\n`, count: findings.length };
}

function keyOf({ path, rule, message }: KnownFinding): string {
  return `${path}\n${rule}\n${message}`;
}

function placeOf(file: string, baseline: string, cwd: string): string {
  return relative(dirname(baseline), resolve(cwd, file)).replaceAll('\\', '/');
}

function parse(name: string, path: string): readonly KnownFinding[] {
  const read = readText(path, largestBaseline);
  if ('problem' in read) {
    const cure = read.isThere ? '' : `; --write-baseline ${name} makes one`;
    throw new CannotRun(`the baseline ${name} cannot be read: ${read.isThere ? read.problem : 'there is no such file'}${cure}`);
  }
  let data: unknown;
  try {
    data = JSON.parse(read.text, (_, value: unknown) => (typeof value === 'string' ? visible(value) : value));
  } catch {
    throw new CannotRun(`${name} is no baseline: it is not JSON`);
  }
  if (!isBaseline(data)) throw new CannotRun(`${name} is no baseline of version ${version}; --write-baseline ${name} makes one`);
  return data.findings;
}

function isBaseline(data: unknown): data is { readonly findings: readonly KnownFinding[] } {
  if (typeof data !== 'object' || data === null || !('version' in data) || data.version !== version) return false;
  const findings = 'findings' in data ? data.findings : undefined;
  const isEntry = (entry: unknown): boolean =>
    typeof entry === 'object' &&
    entry !== null &&
    ['path', 'rule', 'message', 'fingerprint'].every((key) => typeof (entry as Record<string, unknown>)[key] === 'string');
  return Array.isArray(findings) && findings.every(isEntry);
}
