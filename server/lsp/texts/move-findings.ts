/** Findings of an older text moved to where their lines stand now. */
import { linesOf } from '../../../language/grammar/index.js';
import type { Finding, SourceRange } from '../../../language/source.js';

/** How many lines at the beginning and at the end of two texts are equal, and all lines of both; what lies between differs. */
export function changedLines(
  before: string,
  now: string,
): { readonly above: number; readonly below: number; readonly old: readonly string[]; readonly lines: readonly string[] } {
  const [old, lines] = [linesOf(before), linesOf(now)] as const;
  const least = Math.min(old.length, lines.length);
  let above = 0;
  while (above < least && old[above] === lines[above]) above++;
  let below = 0;
  while (below < least - above && old[old.length - 1 - below] === lines[lines.length - 1 - below]) below++;
  return { above, below, old, lines };
}

/** Those that lie wholly above or below the lines that differ, each with itself as it stands now; what lies in between must be looked at anew. */
export function moveFindings(findings: readonly Finding[], before: string, now: string): ReadonlyMap<Finding, Finding> {
  if (before === now) return new Map(findings.map((finding) => [finding, finding]));
  const { above, below, old, lines } = changedLines(before, now);
  const moved = lines.length - old.length;
  const move = (uri: string, range: SourceRange): SourceRange | undefined => {
    if (range.uri !== uri || range.end.line < above) return range;
    if (range.start.line < old.length - below) return undefined;
    const by = ({ line, character }: SourceRange['start']) => ({ line: line + moved, character });
    return { uri, start: by(range.start), end: by(range.end) };
  };
  const pairs = findings.flatMap((finding) => {
    const { uri } = finding.range;
    const range = move(uri, finding.range);
    if (range === undefined) return [];
    const related = finding.related.flatMap((place) => {
      const there = move(uri, place.range);
      return there === undefined ? [] : [{ ...place, range: there }];
    });
    // An edit made for the old text must not meet the new one.
    return [[finding, { ...finding, range, related, fixes: [] }] as const];
  });
  return new Map(pairs);
}
