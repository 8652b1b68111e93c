/** Findings for programs: the JSON that the language's contract fixes, places counted from 0 as in the Language Server Protocol. */
import type { Finding, SourceRange } from '../../../language/source.js';
import type { CheckReport, ListedFile } from '../output/report.js';

export function checkJson(report: CheckReport): string {
  const files = report.files.map((listed) => {
    const { file, findings, omitted, incomplete, note } = listed;
    const causeOf = createCauseOf(listed);
    return {
      path: file.path,
      ...(incomplete === undefined ? {} : { incomplete }),
      ...(note === undefined ? {} : { note }),
      ...(omitted.length === 0 ? {} : { omitted: omitted.length }),
      findings: findings.map((finding) => ({
        rule: finding.rule,
        severity: finding.severity,
        message: finding.message,
        claim: finding.claim,
        ...(finding.why ? { why: finding.why } : {}),
        ...causeOf(finding),
        range: bare(finding.range),
        related: finding.related.map((related) => ({
          message: related.message,
          path: report.pathOf(related.range.uri),
          range: bare(related.range),
        })),
        fixes: finding.fixes.map((fix) => ({
          title: fix.title,
          confidence: fix.confidence,
          edits: fix.edits.map((edit) => ({
            ...(edit.range.uri === file.uri ? {} : { path: report.pathOf(edit.range.uri) }),
            range: bare(edit.range),
            text: edit.text,
          })),
        })),
      })),
    };
  });
  const { adopted } = report;
  return `${JSON.stringify({ files, ...(adopted === undefined ? {} : { baseline: adopted }) }, null, 2)}\n`;
}

/** `follows`, the number of a finding's cause in the same list, from 0. */
function createCauseOf({ findings, follows }: ListedFile): (finding: Finding) => { readonly follows?: number } {
  const numbers = new Map(findings.map((finding, index) => [finding, index]));
  return (finding) => {
    const cause = follows.get(finding);
    const index = cause === undefined ? undefined : numbers.get(cause);
    return index === undefined ? {} : { follows: index };
  };
}

/** A range without its file. */
function bare({ start, end }: SourceRange): Pick<SourceRange, 'start' | 'end'> {
  return { start: { line: start.line, character: start.character }, end: { line: end.line, character: end.character } };
}
