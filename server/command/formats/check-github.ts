/** Findings as workflow commands that a hosted build shows beside the lines of a change. */
import { followText } from '../../../language/causes.js';
import { annotationMessage, annotationProperty } from '../../../language/escape.js';
import { severityRanks, type Finding, type Severity } from '../../../language/source.js';
import { lastEntry, type CheckReport } from '../output/report.js';

const words: Record<Severity, string> = { error: 'error', warning: 'warning', info: 'notice', hint: 'notice' };

/** The build shows the first ten errors, warnings and notices of a step beside the lines; its log holds all. */
export function checkGithub(report: CheckReport): string {
  return report.files
    .flatMap((file) => [
      ...[...file.findings, ...lastEntry(file)].map((finding) => {
        const { start, end } = finding.range;
        // Columns are allowed only where a finding stands on one line.
        const columns = end.line === start.line ? `,col=${start.character + 1},endColumn=${end.character + 1}` : '';
        const place = `file=${annotationProperty(report.pathOf(finding.range.uri))},line=${start.line + 1},endLine=${end.line + 1}${columns}`;
        const followers = file.followers.get(finding) ?? [];
        const text = [finding.message, finding.why, finding.fixes[0] && `try: ${finding.fixes[0].title}`, followText(followers)]
          .filter(Boolean)
          .join('\n');
        return `::${words[severityOf([finding, ...followers])]} ${place},title=${annotationProperty(finding.rule)}::${annotationMessage(text)}\n`;
      }),
      ...(file.note === undefined
        ? []
        : [`::notice file=${annotationProperty(file.file.path)}::${annotationMessage(file.note)}\n`]),
    ])
    .join('');
}

/** The gravest: a build that fails because of what follows from a warning has an error to show. */
function severityOf(findings: readonly Finding[]): Severity {
  return findings.map(({ severity }) => severity).reduce((a, b) => (severityRanks[b] < severityRanks[a] ? b : a));
}
