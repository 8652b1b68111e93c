/** When a suite counts as passed: the exit code alone proves nothing. */
import { existsSync, readFileSync } from 'node:fs';
import type { SuiteReport } from './report.js';

/** Reads the result file and gives the reasons why the run does not count, none where it passed. */
export function judge(resultFile: string, exitCode: number | undefined): { report?: SuiteReport; reasons: string[] } {
  const reasons: string[] = [];
  if (exitCode === undefined) reasons.push('the suite did not end in its time');
  else if (exitCode !== 0) reasons.push(`the suite ended with ${exitCode}`);
  if (!existsSync(resultFile)) return { reasons: [...reasons, 'the suite wrote no result file'] };
  const report = JSON.parse(readFileSync(resultFile, 'utf8')) as SuiteReport;
  if (!report.finished) reasons.push('the suite did not run to its end');
  if (report.results.length === 0) reasons.push('the suite ran no test');
  for (const result of report.results) if (!result.passed) reasons.push(`${result.name}: ${result.error ?? 'failed'}`);
  return { report, reasons };
}
