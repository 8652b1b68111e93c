/** What changed between two versions of many circuits: files, and every circuit that is affected, also through a file that it uses. */
import { capChange } from '../../../language/cap-findings.js';
import type { AnalysedCircuit } from '../../../language/circuit/model.js';
import { compare, countsOf, type Change, type Counts } from '../../../language/compare/index.js';
import { findings, foundIn } from '../../../language/findings.js';
import { linesOf } from '../../../language/grammar/index.js';
import type { Host } from '../command.js';
import { sourcesOf } from '../output/output.js';
import { uriIn, type Version } from './version.js';

/** A file that is in one version only, lies elsewhere now, or is a file of parts that changed and that no circuit here uses. */
export interface FileChange {
  readonly kind: 'added' | 'deleted' | 'renamed' | 'unused';
  readonly before?: string;
  readonly after?: string;
  /** The title of its circuit; empty for a file of parts. */
  readonly title: string;
  /** Errors and warnings of a circuit that was added; errors in the text of a file of parts that changed. */
  readonly errors?: number;
  readonly warnings?: number;
}

/** A circuit that is in both versions and differs. */
export interface CircuitChange {
  /** Where it lies now. */
  readonly path: string;
  /** Where it lay, if elsewhere. */
  readonly earlier?: string;
  /** Files that it uses and that changed. */
  readonly because: readonly string[];
  /** The first line, from 1, in which each of those differs. */
  readonly lines: Readonly<Record<string, number>>;
  readonly change: Change;
  readonly counts: Counts;
  readonly hasBattery: boolean;
  /** Equal for circuits in which the same files cause the same, figures aside; their own path for those that change themselves. */
  readonly effect: string;
}

export interface FolderChange {
  /** The folder from which files of the new version are named. */
  readonly root: string;
  readonly before: string;
  readonly after: string;
  readonly files: readonly FileChange[];
  /** Those that a reviewer must see first come first. */
  readonly circuits: readonly CircuitChange[];
  /** How many circuits are in both versions. */
  readonly compared: number;
  /** Addresses of all files that were read. */
  readonly sources: readonly string[];
}

export interface FolderOptions {
  /** Lists every finding. */
  readonly isWhole?: boolean;
  /** Only circuits that are this file or use it, from the root. */
  readonly only?: string;
  /** Called before each pair of files. */
  readonly progress?: Host['progress'];
}

export function compareFolders(before: Version, after: Version, options: FolderOptions = {}): FolderChange {
  const pairs = pairFiles(before, after);
  const sources = new Set<string>();
  const files: FileChange[] = [];
  const circuits: CircuitChange[] = [];
  const parts: { readonly path: string; readonly circuit: AnalysedCircuit }[] = [];
  let compared = 0;
  for (const { old, now } of announced(pairs, options.progress)) {
    const [was, is] = [circuitAt(before, old), circuitAt(after, now)];
    for (const one of [was, is]) if (one !== undefined) for (const uri of sourcesOf(one.uri, one)) sources.add(uri);
    if (options.only !== undefined && !usesFile(before, was, options.only) && !usesFile(after, is, options.only)) continue;
    if (old !== now) files.push(fileChange(old, now, was, is));
    if (old === undefined || now === undefined || was === undefined || is === undefined) continue;
    if (was.isLibrary && is.isLibrary) {
      if (before.project.text(was.uri) !== after.project.text(is.uri)) parts.push({ path: now, circuit: is });
      continue;
    }
    compared += 1;
    const because = changedUses(before, after, was, is);
    const isEdited = before.project.text(was.uri) !== after.project.text(is.uri);
    if (because.length === 0 && !isEdited) continue;
    const lines = because.map((path): [string, number] => [path, firstDifference(before, after, path)]);
    const file = { ...pathsOf(old, now), because, lines: Object.fromEntries(lines), isEdited };
    circuits.push(circuitChange(changeOf(was, is, options), is, file));
  }
  const used = new Set(circuits.flatMap(({ because }) => because));
  for (const { path, circuit } of parts.filter(({ path }) => !used.has(path))) {
    const errors = circuit.problems.filter(({ severity }) => severity === 'error').length;
    files.push({ kind: 'unused', before: path, after: path, title: '', errors });
  }
  circuits.sort((a, b) => rank(b) - rank(a));
  return { root: after.root, before: before.name, after: after.name, files, circuits, compared, sources: [...sources] };
}

/** The pairs, each said before it is looked at. */
function* announced(pairs: readonly Pair[], progress: Host['progress']): Generator<Pair, void> {
  for (const [index, pair] of pairs.entries()) {
    progress?.(index, pairs.length, pair.now ?? pair.old ?? '');
    yield pair;
  }
}

function circuitAt(version: Version, path: string | undefined): AnalysedCircuit | undefined {
  return path === undefined ? undefined : version.project.circuit(uriIn(version, path));
}

function usesFile(version: Version, circuit: AnalysedCircuit | undefined, path: string): boolean {
  return circuit !== undefined && sourcesOf(circuit.uri, circuit).includes(uriIn(version, path));
}

/** Files that one of the circuits uses and whose text differs, from the root. */
function changedUses(before: Version, after: Version, was: AnalysedCircuit, is: AnalysedCircuit): readonly string[] {
  const used = (version: Version, circuit: AnalysedCircuit): readonly string[] =>
    (circuit.files ?? []).map((uri) => pathIn(version, uri)).filter((path) => path !== undefined);
  const all = [...new Set([...used(before, was), ...used(after, is)])].sort();
  return all.filter((path) => before.project.text(uriIn(before, path)) !== after.project.text(uriIn(after, path)));
}

/** The first line of the new text, from 1, that differs; the last where only the end is missing. */
function firstDifference(before: Version, after: Version, path: string): number {
  const [old, now] = [before, after].map((version) => linesOf(version.project.text(uriIn(version, path)) ?? '')) as [
    string[],
    string[],
  ];
  const at = now.findIndex((line, index) => line !== old[index]);
  return at < 0 ? Math.max(1, now.length) : at + 1;
}

function pathIn(version: Version, uri: string): string | undefined {
  const root = `${uriIn(version, '.').replace(/\/$/, '')}/`;
  return uri.startsWith(root) ? decodeURIComponent(uri.slice(root.length)) : undefined;
}

function pathsOf(old: string, now: string): Pick<CircuitChange, 'path' | 'earlier'> {
  return old === now ? { path: now } : { path: now, earlier: old };
}

function changeOf(was: AnalysedCircuit, is: AnalysedCircuit, { isWhole = false }: FolderOptions): Change {
  const whole = compare(foundIn(was), foundIn(is));
  return isWhole ? whole : capChange(whole);
}

/** A change that is known, as an entry of a page. `because` are files that it uses; `isEdited` says that its own text differs, too. */
export function circuitChange(
  change: Change,
  after: AnalysedCircuit,
  files: Pick<CircuitChange, 'path' | 'earlier' | 'because' | 'lines'> & { readonly isEdited: boolean },
): CircuitChange {
  const { isEdited, ...named } = files;
  const cause = isEdited ? [named.path, ...named.because].sort() : named.because;
  return {
    ...named,
    change,
    counts: countsOf(change),
    hasBattery: after.elements.some(({ kind }) => kind === 'battery'),
    effect: effectKey(change, cause),
  };
}

/** What one cause does, whatever the figures of each circuit are. */
function effectKey(
  { summary, positions, controls, lost, expectations, allows, findings, unread, rework }: Change,
  cause: readonly string[],
): string {
  return JSON.stringify([
    cause,
    summary,
    positions.map(({ label, kind, sounds, hum, ...figures }) => [
      label,
      kind,
      sounds,
      hum,
      'reads' in figures,
      'limits' in figures,
    ]),
    controls.map(({ name, together, role }) => [name, together, role]),
    [
      lost,
      expectations.map(({ kind, expects }) => [kind, expects]),
      allows.map(({ says }) => says),
      findings.map(({ says }) => says),
    ],
    unread.map(({ version, errors }) => [version, errors]),
    rework,
  ]);
}

/** What must not be missed weighs most. */
function rank({ counts, change }: CircuitChange): number {
  const { unread, silent, lost, weakened, broken, allow, found, sounding, reading, figures, controls } = counts;
  return (
    1000 * (unread + silent + lost + weakened + broken + allow) +
    100 * found +
    10 * sounding +
    reading +
    figures +
    controls +
    (change.build ? 0.5 : 0)
  );
}

interface Pair {
  readonly old?: string;
  readonly now?: string;
}

/** By path; what is left by content, the most alike first. */
function pairFiles(before: Version, after: Version): readonly Pair[] {
  const [olds, news] = [new Set(before.files), new Set(after.files)];
  const both = before.files.filter((path) => news.has(path)).map((path) => ({ old: path, now: path }));
  const left = before.files.filter((path) => !news.has(path));
  const added = after.files.filter((path) => !olds.has(path));
  const moved = pairByContent(
    left.map((path) => ({ path, text: before.project.text(uriIn(before, path)) ?? '' })),
    added.map((path) => ({ path, text: after.project.text(uriIn(after, path)) ?? '' })),
  );
  const [from, to] = [new Set(moved.map(({ old }) => old)), new Set(moved.map(({ now }) => now))];
  const pairs: Pair[] = [
    ...both,
    ...moved,
    ...left.filter((path) => !from.has(path)).map((old) => ({ old })),
    ...added.filter((path) => !to.has(path)).map((now) => ({ now })),
  ];
  return pairs.sort((a, b) => ((a.now ?? a.old ?? '') < (b.now ?? b.old ?? '') ? -1 : 1));
}

interface NamedText {
  readonly path: string;
  readonly text: string;
}

/** Half of the lines in common make one file of two, as in git. */
const alikeEnough = 0.5;

function pairByContent(olds: readonly NamedText[], news: readonly NamedText[]): readonly Required<Pair>[] {
  const candidates = olds
    .flatMap((old) => news.map((now) => ({ old: old.path, now: now.path, alike: commonShare(old.text, now.text) })))
    .filter(({ alike }) => alike >= alikeEnough)
    .sort((a, b) => b.alike - a.alike);
  const used = new Set<string>();
  return candidates.flatMap(({ old, now }) => {
    if (used.has(`- ${old}`) || used.has(`+ ${now}`)) return [];
    used.add(`- ${old}`).add(`+ ${now}`);
    return [{ old, now }];
  });
}

/** The share of lines, blank ones left out, that are in both texts. */
function commonShare(old: string, now: string): number {
  const counts = new Map<string, number>();
  const [a, b] = [old, now].map((text) => linesOf(text).filter((line) => line.trim() !== '')) as [string[], string[]];
  for (const line of a) counts.set(line, (counts.get(line) ?? 0) + 1);
  let common = 0;
  for (const line of b) {
    const left = counts.get(line) ?? 0;
    if (left > 0) common += 1;
    counts.set(line, left - 1);
  }
  return (2 * common) / Math.max(1, a.length + b.length);
}

function fileChange(
  old: string | undefined,
  now: string | undefined,
  was: AnalysedCircuit | undefined,
  is: AnalysedCircuit | undefined,
): FileChange {
  const circuit = is ?? was;
  const title = circuit?.isLibrary === true ? '' : (circuit?.title ?? '');
  if (old !== undefined && now !== undefined) return { kind: 'renamed', before: old, after: now, title };
  if (now === undefined) return { kind: 'deleted', ...(old === undefined ? {} : { before: old }), title };
  const found = is === undefined ? [] : findings(is);
  const count = (severity: string): number => found.filter((finding) => finding.severity === severity).length;
  return { kind: 'added', after: now, title, errors: count('error'), warnings: count('warning') };
}
