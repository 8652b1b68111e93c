/** Findings as JUnit-style XML, as build servers read it: a suite a file, a case a listed finding, one passing case for a clean file. */
import { followText } from '../../../language/causes.js';
import { escapeXml } from '../../../language/escape.js';
import type { Finding } from '../../../language/source.js';
import { causesFirst, lastEntry, type CheckReport, type ListedFile } from '../output/report.js';

export function checkJunit(report: CheckReport, isFailure: (finding: Finding) => boolean): string {
  const failures = report.files.flatMap(({ findings }) => findings).filter(isFailure).length;
  const suites = report.files.map((file) => suite(file, isFailure));
  const tests = report.files.reduce((sum, file) => sum + Math.max(1, file.findings.length + lastEntry(file).length), 0);
  return `<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="lugwork" tests="${tests}" failures="${failures}" errors="0">\n${suites.join('')}</testsuites>\n`;
}

function suite(listed: ListedFile, isFailure: (finding: Finding) => boolean): string {
  const name = escapeXml(listed.file.path);
  const failures = listed.findings.filter(isFailure).length;
  const findings = [...causesFirst(listed), ...lastEntry(listed)];
  const cases =
    findings.length === 0
      ? [`    <testcase name="no findings" classname="${name}"/>\n`]
      : findings.map((finding) => testcase(finding, listed, isFailure(finding)));
  const output = listed.note === undefined ? '' : `    <system-out>${escapeXml(listed.note)}</system-out>\n`;
  return `  <testsuite name="${name}" tests="${cases.length}" failures="${failures}" errors="0">\n${cases.join('')}${output}  </testsuite>\n`;
}

function testcase(finding: Finding, { file, follows, followers }: ListedFile, fails: boolean): string {
  const { line, character } = finding.range.start;
  const name = escapeXml(file.path);
  const cause = follows.get(finding)?.range.start;
  const open = `    <testcase name="${escapeXml(`${finding.rule} ${line + 1}:${character + 1}`)}" classname="${name}">`;
  const text = escapeXml(
    [
      finding.message,
      finding.why,
      ...finding.fixes.map((fix) => `try: ${fix.title}`),
      cause && `follows from ${cause.line + 1}:${cause.character + 1}`,
      followText(followers.get(finding)),
    ]
      .filter(Boolean)
      .join('\n'),
  );
  const inside = fails
    ? `<failure type="${escapeXml(finding.rule)}" message="${escapeXml(finding.message)}">${text}</failure>`
    : `<system-out>${finding.severity}: ${text}</system-out>`;
  return `${open}${inside}</testcase>\n`;
}
