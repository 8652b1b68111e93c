/** Findings as workflow commands that a hosted build shows beside the lines of a change. */
import type { Severity } from '../../../language/source.js';
import type { CheckReport } from '../report.js';
import { printable } from '../terminal.js';

const words: Record<Severity, string> = { error: 'error', warning: 'warning', info: 'notice', hint: 'notice' };

export function checkGithub(report: CheckReport): string {
  return report.files
    .flatMap(({ file, findings, note }) => [
      ...findings.map((finding) => {
        const { start, end } = finding.range;
        // Columns are allowed only where a finding stands on one line.
        const columns = end.line === start.line ? `,col=${start.character + 1},endColumn=${end.character + 1}` : '';
        const place = `file=${property(report.pathOf(finding.range.uri))},line=${start.line + 1},endLine=${end.line + 1}${columns}`;
        const text = [finding.message, finding.why, finding.fixes[0] && `try: ${finding.fixes[0].title}`]
          .filter(Boolean)
          .join('\n');
        return `::${words[finding.severity]} ${place},title=${property(finding.rule)}::${data(text)}\n`;
      }),
      ...(note === undefined ? [] : [`::notice file=${property(file.path)}::${data(note)}\n`]),
    ])
    .join('');
}

function data(text: string): string {
  return printable(text).replaceAll('%', '%25').replaceAll('\n', '%0A');
}

function property(text: string): string {
  return data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
