/** Findings as JUnit-style XML, as build servers read it: a suite a file, a case a finding, one passing case for a clean file. */
import type { Finding } from '../../../language/source.js';
import type { CheckedFile, CheckReport } from '../report.js';
import { escapeXml } from '../xml.js';

export function checkJunit(report: CheckReport, isFailure: (finding: Finding) => boolean): string {
  const failures = report.files.flatMap(({ findings }) => findings).filter(isFailure).length;
  const suites = report.files.map((file) => suite(file, isFailure));
  const tests = report.files.reduce((sum, { findings }) => sum + Math.max(1, findings.length), 0);
  return `<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="lugwork" tests="${tests}" failures="${failures}" errors="0">\n${suites.join('')}</testsuites>\n`;
}

function suite({ file, findings, note }: CheckedFile, isFailure: (finding: Finding) => boolean): string {
  const name = escapeXml(file.path);
  const failures = findings.filter(isFailure).length;
  const cases =
    findings.length === 0
      ? [`    <testcase name="no findings" classname="${name}"/>\n`]
      : findings.map((finding) => testcase(finding, name, isFailure(finding)));
  const output = note === undefined ? '' : `    <system-out>${escapeXml(note)}</system-out>\n`;
  return `  <testsuite name="${name}" tests="${cases.length}" failures="${failures}" errors="0">\n${cases.join('')}${output}  </testsuite>\n`;
}

function testcase(finding: Finding, file: string, fails: boolean): string {
  const { line, character } = finding.range.start;
  const open = `    <testcase name="${escapeXml(`${finding.rule} ${line + 1}:${character + 1}`)}" classname="${file}">`;
  const text = escapeXml(
    [finding.message, finding.why, ...finding.fixes.map((fix) => `try: ${fix.title}`)].filter(Boolean).join('\n'),
  );
  const inside = fails
    ? `<failure type="${escapeXml(finding.rule)}" message="${escapeXml(finding.message)}">${text}</failure>`
    : `<system-out>${finding.severity}: ${text}</system-out>`;
  return `${open}${inside}</testcase>\n`;
}
