/** The workflow in examples/ci: its steps run in a real repository, as a build runs them, and its actions are the platform's own. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { commentMarker } from '../../server/command/folders/page-markdown.js';
import { lugwork } from '../harness/process.js';
import { repositoryWith } from '../harness/repository.js';
import { base } from './cases.js';
import { createSteps, workflow } from './review/workflow-steps.js';

const { folder, git } = repositoryWith({
  'circuits/no-42.lug': base('two'),
  'circuits/no 41 $(touch owned).lug': base('one'),
});
const { step, program } = createSteps(folder);
const first = git('rev-parse', 'HEAD').trim();

test('names no action but the platform’s own', () => {
  const actions = [...workflow.matchAll(/uses: (\S+)/g)].map(([, name]) => name!);
  expect(actions.filter((name) => !/^(actions|github)\//.test(name))).toEqual([]);
  // What comes from the pull request reaches a shell only as a variable.
  expect([...workflow.matchAll(/run: .*\$\{\{/g)]).toEqual([]);
});

test('clean circuits pass, a change is annotated and compared', () => {
  expect(step('Check the circuits').code).toBe(0);
  for (const name of ['no-42', 'no 41 $(touch owned)']) {
    const path = join(folder, `circuits/${name}.lug`);
    writeFileSync(path, readFileSync(path, 'utf8').replace(/^wire (pickup|neck)\.ground .*\n/m, ''));
  }
  git('commit', '-qam', 'A ground less');
  const { code, out } = step('Check the circuits');
  expect(code).toBe(1);
  expect(out).toMatch(/^::error file=circuits\/no-42\.lug,line=\d+,/m);
  expect(out).toMatch(/^::error file=circuits\/no 41 \$\(touch owned\)\.lug,line=\d+,/m);
  const sarif = step('Write the findings for code scanning');
  expect(sarif.code).toBe(0);
  const log = JSON.parse(readFileSync(join(folder, 'wiring.sarif'), 'utf8')) as { runs: { results: unknown[] }[] };
  expect(log.runs[0]!.results.length).toBeGreaterThan(1);
  const compared = step('Compare the circuits', { BASE: first });
  expect(compared.code).toBe(0);
  expect(compared.out).toMatch(/^::error file=circuits\/no-42\.lug,line=\d+,title=/m);
  expect(readFileSync(join(folder, 'comment.md'), 'utf8').split('\n').slice(0, 3)).toEqual([
    '<!-- lugwork: wiring review -->',
    '',
    // No. 41 has one pickup, which is silent in its one position; of no. 42 the neck is silent by itself. Each claim of theirs fails.
    expect.stringMatching(/^### Wiring: 2 circuits: 2 positions silent, 2 pickups lost, \d+ checks failing/) as string,
  ]);
  expect(git('status', '--porcelain').trim()).toBe('?? comment.md\n?? wiring.sarif');
  expect(step('Gate', { BASE: first }).code).toBe(1);
});

test('one comment is written, and written again', () => {
  const ask = (found: string): string => {
    program('gh', `echo "$@" >> "$CALLS"\nif [ "$2" = --paginate ]; then echo '${found}'; fi`);
    const calls = join(folder, 'calls');
    writeFileSync(calls, '');
    expect(step('Comment', { NUMBER: '7', GITHUB_REPOSITORY: 'alder-lane/circuits', CALLS: calls })).toMatchObject({ code: 0 });
    return readFileSync(calls, 'utf8');
  };
  expect(ask('')).toMatch(
    /^api --paginate repos\/alder-lane\/circuits\/issues\/7\/comments .*\npr comment 7 --body-file comment\.md\n$/,
  );
  expect(ask('4711')).toContain('api --method PATCH repos/alder-lane/circuits/issues/comments/4711 --field body=@comment.md');
  // What the step looks for is what the comment begins with.
  expect(workflow).toContain(`startswith("${commentMarker}")`);
});

test('with a baseline beside them, adopted faults pass', () => {
  lugwork(['check', '--write-baseline', 'known.json', 'circuits'], folder);
  expect(step('Check the circuits').code).toBe(0);
});
