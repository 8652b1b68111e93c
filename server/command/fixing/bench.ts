/** Tries fixes on the texts of a call before they are kept: a fix must take its finding away, bring no error, and leave less to be fixed. */
import { identityOf } from '../../../language/claim.js';
import { edited } from '../../../language/edited.js';
import { findings } from '../../../language/findings.js';
import { formatText, lineEndOf } from '../../../language/grammar/index.js';
import { circuitWith, type Project } from '../../../language/project.js';
import { severityRanks, type Edit, type Finding, type Fix } from '../../../language/source.js';
import { circuitOf, type SourceFile } from '../reading/reading.js';

/** A fix and the finding that asks for it. */
export interface Candidate {
  readonly file: SourceFile;
  readonly finding: Finding;
  readonly fix: Fix;
}

export interface Bench {
  /** True for a file that may be edited. */
  has(uri: string): boolean;
  /** Makes these fixes, which do not touch one another, in the project's texts, or says why they stay out. */
  keep(fixes: readonly Candidate[]): string | undefined;
  /** True where no more is tried. */
  isSpent(): boolean;
}

/** How often texts are checked for the sake of fixes in one call: far more than working circuits need, and an end for a text that is broken throughout. */
export const mostTrials = 500;

export function createBench(files: readonly SourceFile[], project: Project, most: number): Bench {
  const uris = new Set(files.map(({ uri }) => uri));
  let trials = 0;
  return {
    has: (uri) => uris.has(uri),
    isSpent: () => trials >= most,
    keep(fixes) {
      trials += 1;
      const texts = textsWith(
        project,
        fixes.flatMap(({ fix }) => fix.edits),
      );
      const affected = [...uris].filter((uri) => isAffected(uri, texts, project));
      const before = affected.flatMap((uri) => findings(circuitOf(project, uri)));
      const after = affected.flatMap((uri) => {
        const circuit = circuitWith(project, uri, texts);
        return circuit === undefined ? [] : findings(circuit);
      });
      const problem = problemOf(fixes, before, after);
      if (problem === undefined) for (const [uri, text] of texts) project.update(uri, text);
      return problem;
    },
  };
}

function isAffected(uri: string, texts: ReadonlyMap<string, string>, project: Project): boolean {
  return texts.has(uri) || circuitOf(project, uri).files?.some((used) => texts.has(used)) === true;
}

/** The texts that the edits change. One that was in the layout of `lugwork format` stays in it, and a line that is added ends as the others do. */
function textsWith(project: Project, edits: readonly Edit[]): ReadonlyMap<string, string> {
  const uris = [...new Set(edits.map(({ range }) => range.uri))];
  return new Map(
    uris.map((uri) => {
      const text = project.text(uri) ?? '';
      const end = lineEndOf(text);
      const own = edits
        .filter(({ range }) => range.uri === uri)
        .map(({ range, text: put }) => ({ range, text: put.replace(/\r\n|\r|\n/g, end) }));
      const made = edited(text, own);
      return [uri, formatText(text) === text ? formatText(made) : made];
    }),
  );
}

/** Why a text with these fixes is not better than the one without, as the end of a sentence about them. */
function problemOf(fixes: readonly Candidate[], before: readonly Finding[], after: readonly Finding[]): string | undefined {
  const errors = (found: readonly Finding[]): readonly Finding[] => found.filter(({ severity }) => severity === 'error');
  const known = countsOf(errors(before));
  const isNew = (finding: Finding): boolean => {
    const left = (known.get(keyOf(finding)) ?? 0) - 1;
    known.set(keyOf(finding), left);
    return left < 0;
  };
  const fresh = errors(after).find(isNew);
  if (fresh !== undefined) return `it would bring another error: ${fresh.message} [${fresh.rule}]`;
  const [were, are] = [countsOf(before), countsOf(after)];
  const meant = countsOf(fixes.map(({ finding }) => finding));
  if ([...meant].some(([key, count]) => (are.get(key) ?? 0) > (were.get(key) ?? 0) - count)) return 'the finding would remain';
  return isLess(gravity(after), gravity(before)) ? undefined : 'it would bring as many other findings';
}

function keyOf({ claim }: Finding): string {
  return identityOf(claim);
}

function countsOf(found: readonly Finding[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const finding of found) counts.set(keyOf(finding), (counts.get(keyOf(finding)) ?? 0) + 1);
  return counts;
}

/** How many findings there are of each severity, the gravest first. */
function gravity(found: readonly Finding[]): readonly number[] {
  return Object.keys(severityRanks).map((severity) => found.filter((finding) => finding.severity === severity).length);
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((count, index) => count !== b[index]);
  return at >= 0 && (a[at] ?? 0) < (b[at] ?? 0);
}
