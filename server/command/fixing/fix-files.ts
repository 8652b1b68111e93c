/** Applies fixes to the files of a call, each checked before it is kept, until none is left that helps. */
import type { AnalysedCircuit } from '../../../language/circuit/index.js';
import { findings } from '../../../language/findings.js';
import type { Project } from '../../../language/project.js';
import type { Confidence, Edit, Finding, Fix } from '../../../language/source.js';
import { circuitOf, type SourceFile } from '../reading/reading.js';
import { withRepairsFound } from '../repairs.js';
import { createBench, mostTrials, type Bench, type Candidate } from './bench.js';

/** How much must be known of a fix that is applied. */
export type Level = Exclude<Confidence, 'possible'>;

export interface RefusedFix extends Candidate {
  /** Why, as the end of a sentence about the fix. */
  readonly problem: string;
}

export interface FixOptions {
  readonly level: Level;
  /** Budget of each search, as a factor of the usual one. */
  readonly effort: number;
  /** How often texts are checked, at most. */
  readonly trials?: number;
  /** Those of a file's findings that are to be fixed. */
  readonly counting: (file: SourceFile, found: readonly Finding[]) => readonly Finding[];
}

export interface Fixed {
  readonly applied: readonly Candidate[];
  /** Fixes of that confidence that made things no better, in the present text. */
  readonly refused: readonly RefusedFix[];
  /** False where so many fixes were tried that the rest is left for another call. */
  readonly isThrough: boolean;
}

/**
 * Fixes the files, in the project alone: nothing is written. Edits stay within `files`. What is misspelt is corrected before wires are moved, since the
 * search for another wiring needs a text without errors. Each fix that is kept leaves fewer or less grave findings than there were, so that this ends, and a
 * second call finds nothing to do.
 */
export function fixFiles(files: readonly SourceFile[], project: Project, options: FixOptions): Fixed {
  const circuits = files.filter(({ uri }) => !uri.endsWith('.json'));
  const bench = createBench(circuits, project, options.trials ?? mostTrials);
  const applied: Candidate[] = [];
  const refused = new Map<string, readonly RefusedFix[]>();
  /** The circuits in which nothing more can be fixed. */
  const done = new Map<string, AnalysedCircuit>();
  let isChanged = true;
  while (isChanged && !bench.isSpent()) {
    isChanged = false;
    for (const file of circuits) {
      while (!bench.isSpent() && done.get(file.uri) !== circuitOf(project, file.uri)) {
        const round = improve(file, project, options, bench);
        refused.set(file.uri, round.refused);
        applied.push(...round.applied);
        if (round.applied.length > 0) isChanged = true;
        else done.set(file.uri, circuitOf(project, file.uri));
      }
    }
  }
  return { applied, refused: [...refused.values()].flat(), isThrough: !bench.isSpent() };
}

interface Round {
  readonly applied: readonly Candidate[];
  readonly refused: readonly RefusedFix[];
}

/** Applies some fixes of one file; those that the text itself suggests first, then what the search finds. */
function improve(file: SourceFile, project: Project, { level, effort, counting }: FixOptions, bench: Bench): Round {
  const circuit = circuitOf(project, file.uri);
  const found = counting(file, findings(circuit));
  const refused: RefusedFix[] = [];
  const tried = new Set<string>();
  for (const list of [() => found, () => withRepairsFound(circuit, found, effort).findings]) {
    const candidates = candidatesOf(file, list(), level, bench).filter(({ fix }) => !tried.has(keyOf(fix)));
    for (const { fix } of candidates) tried.add(keyOf(fix));
    const applied = accept(candidates, bench, refused);
    if (applied.length > 0) return { applied, refused: [] };
  }
  return { applied: [], refused };
}

/** The first fix of each finding of which enough is known; one that fixes several findings comes once. */
function candidatesOf(file: SourceFile, found: readonly Finding[], level: Level, bench: Bench): readonly Candidate[] {
  const candidates = new Map<string, Candidate>();
  for (const finding of found) {
    const fix = finding.fixes.find(({ confidence }) => confidence === 'sure' || confidence === level);
    if (fix === undefined || !fix.edits.every(({ range }) => bench.has(range.uri))) continue;
    const key = keyOf(fix);
    if (!candidates.has(key)) candidates.set(key, { file, finding, fix });
  }
  return [...candidates.values()];
}

function keyOf({ edits }: Fix): string {
  return JSON.stringify(edits.map(({ range, text }) => [range, text]));
}

/** Keeps as many of the fixes as help, together where they do, else by halves. Those that touch one another wait for the next round. */
function accept(candidates: readonly Candidate[], bench: Bench, refused: RefusedFix[]): readonly Candidate[] {
  if (candidates.length === 0 || bench.isSpent()) return [];
  const together = apart(candidates);
  const problem = bench.keep(together);
  if (problem === undefined) return together;
  const [single, ...more] = together;
  if (single !== undefined && more.length === 0) refused.push({ ...single, problem });
  const half = Math.ceil(together.length / 2);
  const parts = more.length === 0 ? [] : [together.slice(0, half), together.slice(half)];
  for (const part of [...parts, candidates.filter((candidate) => !together.includes(candidate))]) {
    const applied = accept(part, bench, refused);
    if (applied.length > 0) return applied;
  }
  return [];
}

/** As many as can be made in one text, in their order. */
function apart(candidates: readonly Candidate[]): readonly Candidate[] {
  const taken: Edit[] = [];
  return candidates.filter(({ fix }) => {
    if (fix.edits.some((edit) => taken.some((other) => touch(edit, other)))) return false;
    taken.push(...fix.edits);
    return true;
  });
}

function touch({ range: a }: Edit, { range: b }: Edit): boolean {
  const isBefore = (one: Edit['range']['start'], other: Edit['range']['start']): boolean =>
    one.line < other.line || (one.line === other.line && one.character < other.character);
  return a.uri === b.uri && !isBefore(a.end, b.start) && !isBefore(b.end, a.start);
}
