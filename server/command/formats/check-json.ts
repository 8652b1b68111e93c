/** Findings for programs: the JSON that the language's contract fixes, places counted from 0 as in the Language Server Protocol. */
import type { SourceRange } from '../../../language/source.js';
import type { CheckReport } from '../output/report.js';

export function checkJson(report: CheckReport): string {
  const files = report.files.map(({ file, findings, omitted, incomplete, note }) => ({
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
      range: bare(finding.range),
      related: finding.related.map((related) => ({
        message: related.message,
        path: report.pathOf(related.range.uri),
        range: bare(related.range),
      })),
      fixes: finding.fixes.map((fix) => ({
        title: fix.title,
        edits: fix.edits.map((edit) => ({
          ...(edit.range.uri === file.uri ? {} : { path: report.pathOf(edit.range.uri) }),
          range: bare(edit.range),
          text: edit.text,
        })),
      })),
    })),
  }));
  const { adopted } = report;
  return `${JSON.stringify({ files, ...(adopted === undefined ? {} : { baseline: adopted }) }, null, 2)}\n`;
}

/** A range without its file. */
function bare({ start, end }: SourceRange): Pick<SourceRange, 'start' | 'end'> {
  return { start: { line: start.line, character: start.character }, end: { line: end.line, character: end.character } };
}
