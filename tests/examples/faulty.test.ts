/** Each faulty example brings the finding that its first line names, at least one error, and is clean once it is corrected. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { exampleNames, examplesUri, findingLine, createBench } from './harness.js';
import { rules } from '../../language/checks/index.js';
import { PROBLEM_RULES } from '../../language/circuit/index.js';
import { corrected } from './corrected.js';

describe.each(exampleNames('faulty/'))('%s', (name) => {
  const uri = `${examplesUri}faulty/${name}`;
  const text = readFileSync(new URL(uri), 'utf8');
  const findings = createBench().findings(uri);
  const reported = findings.map(findingLine);

  it.each(broughtBy(text))('brings $rule at $at ($severity)', ({ rule, at, severity }) => {
    const found = findings.filter((finding) => finding.rule === rule && finding.severity === severity);
    expect(found.length, reported.join('\n')).toBeGreaterThan(0);
    if (at !== undefined)
      expect(
        found.flatMap(({ subjects }) => subjects),
        reported.join('\n'),
      ).toContain(at);
  });

  it('makes the check fail, where it is only a warning with --strict', () => {
    const brought = broughtBy(text);
    const isStrict = brought.every(({ severity }) => severity === 'warning');
    expect(
      findings.some(({ severity }) => severity === (isStrict ? 'warning' : 'error')),
      reported.join('\n'),
    ).toBe(true);
  });

  it('is clean once it is corrected', () => {
    const left = createBench({ [uri]: corrected(text) }).findings(uri);
    expect(left.filter(({ severity }) => severity === 'error' || severity === 'warning').map(findingLine)).toEqual([]);
  });
});

it('there is a faulty example for every rule that tells an error or a warning', () => {
  const brought = new Set(
    exampleNames('faulty/').flatMap((name) =>
      broughtBy(readFileSync(new URL(`${examplesUri}faulty/${name}`), 'utf8')).map(({ rule }) => rule),
    ),
  );
  const reported = rules.filter(({ severity }) => severity === 'error' || severity === 'warning').map(({ id }) => id);
  expect([...reported, ...Object.keys(PROBLEM_RULES)].filter((rule) => !brought.has(rule))).toEqual([]);
});

/** The first line: `// brings: never-heard at neck (error), expectation (error)`. */
function broughtBy(
  text: string,
): readonly { readonly rule: string; readonly at: string | undefined; readonly severity: string }[] {
  const [, list] = /^\/\/ brings: (.*)/.exec(text)!;
  return list!.split(', ').map((item) => {
    const found = /^([a-z-]+)(?: at (\S+))? \((error|warning)\)$/.exec(item);
    if (found === null) throw new Error(`“${item}” is not “RULE at PLACE (error)”, the place being one word, or left out`);
    const [, rule, at, severity] = found;
    return { rule: rule!, at, severity: severity! };
  });
}
