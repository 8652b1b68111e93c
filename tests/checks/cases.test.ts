/** Each rule breaks where it must and keeps quiet where it must: `cases/RULE.txt`, in blocks of text. */
import { describe, expect, test } from 'vitest';
import { rules } from '../../language/checks/index.js';
import { readCases } from './cases.js';
import { findingsOf, line, textsIn } from './harness.js';

const files = textsIn('cases', '.txt');

test('each rule has cases that break and cases that do not', () => {
  const lacking = rules.filter(({ id }) => {
    const cases = files.filter(([name]) => name === id).flatMap(([, text]) => readCases(text));
    const breaks = cases.filter(({ expected }) => expected.some(({ rule }) => rule === id));
    return breaks.length === 0 || breaks.length === cases.length;
  });
  expect(lacking.map(({ id }) => id)).toEqual([]);
});

describe.each(files)('%s', (_, text) => {
  test.each(readCases(text).map((one) => [one.title, one] as const))('%s', (_title, { circuit, expected }) => {
    const found = findingsOf(circuit);
    const left = [...found];
    const missing = expected.filter((wanted) => {
      const at = left.findIndex(
        (finding) =>
          finding.severity === wanted.severity &&
          finding.rule === wanted.rule &&
          (wanted.subject === undefined || finding.subjects.includes(wanted.subject)) &&
          finding.message.includes(wanted.message),
      );
      if (at >= 0) left.splice(at, 1);
      return at < 0;
    });
    expect({ missing, besides: left.map(line) }, found.map(line).join('\n')).toEqual({ missing: [], besides: [] });
  });
});
