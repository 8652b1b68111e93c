/** What other programs use of the repository: the action step by step, the hooks, the problem matcher, the attributes of git. */
import { spawnSync } from 'node:child_process';
import { chmodSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { read, root } from '../../harness/checkout.js';
import { folderWith } from '../../harness/process.js';
import { repositoryWith } from '../../harness/repository.js';
import { branches } from './branches.js';
import { createSteps } from './workflow-steps.js';
import { createWorkshop } from './workshop.js';

describe('the action', () => {
  const { folder, branch, git } = createWorkshop();
  const [change] = branches;
  branch(change!.name, change!.edit);
  git('checkout', '-q', change!.name);
  const { step, program } = createSteps(folder, read('action.yml'));
  const files = folderWith({ summary: '' });
  const env = {
    GITHUB_ACTION_PATH: root,
    GITHUB_STEP_SUMMARY: join(files, 'summary'),
    RUNNER_TEMP: files,
    FOLDER: '.',
    BASE: git('rev-parse', 'main').trim(),
  };

  test('has every input that its steps read, and reads every input', () => {
    const text = read('action.yml');
    const [, inputs = ''] = /^inputs:\n((?: {2}.*\n)+)/m.exec(text)!;
    const declared = [...inputs.matchAll(/^ {2}([a-z]+):$/gm)].map(([, name]) => name);
    const used = [...text.matchAll(/inputs\.([a-z]+)/g)].map(([, name]) => name);
    expect([...new Set(used)].sort()).toEqual(declared.sort());
  });

  test('writes findings as annotations, and fails with warnings where that is asked', () => {
    const checked = step('Check the circuits', { ...env, STRICT: 'false' });
    expect([checked.code, checked.err]).toEqual([0, '']);
    writeFileSync(join(folder, 'broken.lug'), 'part p : pott\n');
    const broken = step('Check the circuits', { ...env, FOLDER: 'broken.lug', STRICT: 'false' });
    expect(broken.code).toBe(1);
    expect(broken.out).toMatch(/^::error file=broken\.lug,line=1,/m);
    writeFileSync(join(folder, 'broken.lug'), 'part p : pot\npart j : jack\n');
    const codes = ['false', 'true'].map((STRICT) => step('Check the circuits', { ...env, FOLDER: 'broken.lug', STRICT }).code);
    expect(codes[1]).toBe(1);
  });

  test('puts what changes into the summary and into one comment', () => {
    const compared = step('Compare the circuits', env);
    expect([compared.code, compared.err]).toEqual([0, '']);
    const summary = readFileSync(env.GITHUB_STEP_SUMMARY, 'utf8');
    expect(summary.split('\n').slice(0, 3)).toEqual(['<!-- lugwork: wiring review -->', '', `### Wiring: ${change!.verdict}`]);
    // Its first comment, then the same one again.
    program('gh', 'echo "$@" >> "$RUNNER_TEMP/asked"; if [ "$1 $2" = "api --paginate" ]; then printf "%s" "$KNOWN"; fi');
    const comment = { ...env, NUMBER: '7', GITHUB_REPOSITORY: 'alder/lane' };
    expect(step('Comment', { ...comment, KNOWN: '' }).code).toBe(0);
    expect(step('Comment', { ...comment, KNOWN: '41' }).code).toBe(0);
    const asked = readFileSync(join(files, 'asked'), 'utf8').split('\n');
    expect(asked[1]).toBe(`pr comment 7 --body-file ${files}/wiring.md`);
    expect(asked[3]).toBe(`api --method PATCH repos/alder/lane/issues/comments/41 --field body=@${files}/wiring.md`);
  });
});

describe('the hooks', () => {
  const text = read('.pre-commit-hooks.yaml');
  const hooks = text.split(/^- /m).slice(1);
  const entryOf = (id: string): string => /^ {2}entry: (.*)$/m.exec(hooks.find((hook) => hook.startsWith(`id: ${id}\n`))!)![1]!;

  function runHook(id: string, circuit: string): { readonly code: number | null; readonly text: string } {
    const folder = folderWith({
      'a b.lug': circuit,
      lugwork: `#!/bin/sh\nexec "${process.execPath}" "${root}/dist/lugwork.mjs" "$@"\n`,
    });
    chmodSync(join(folder, 'lugwork'), 0o755);
    const env = { ...process.env, PATH: `${folder}:${process.env['PATH']}` };
    // The files are put behind the entry, as they are passed.
    const { status } = spawnSync('bash', ['-c', `${entryOf(id)} "$@"`, 'hook', 'a b.lug'], { cwd: folder, env });
    return { code: status, text: readFileSync(join(folder, 'a b.lug'), 'utf8') };
  }

  test('check lets a right circuit pass and stops a wrong one', () => {
    const right = read('examples/two-single-coils-lever-3.lug');
    expect(runHook('lugwork-check', right)).toEqual({ code: 0, text: right });
    expect(runHook('lugwork-check', right.replace(/wire volume\.2 .*\n/, '')).code).toBe(1);
  });

  test('format writes the layout', () => {
    expect(runHook('lugwork-format', 'part   p:pot\n')).toEqual({ code: 0, text: 'part p : pot\n' });
  });

  test('take circuits and nothing else', () => {
    for (const hook of hooks) {
      const files = new RegExp(/^ {2}files: (.*)$/m.exec(hook)![1]!);
      expect(['circuits/no-3.lug', 'a.lug.txt', 'lug'].map((name) => files.test(name))).toEqual([true, false, false]);
    }
  });
});

test('the problem matcher finds place, severity, rule and message of each finding', () => {
  const { problemMatcher } = JSON.parse(read('examples/ci/problem-matcher.json')) as {
    problemMatcher: { pattern: { regexp: string }[] }[];
  };
  const pattern = new RegExp(problemMatcher[0]!.pattern[0]!.regexp);
  const folder = folderWith({ 'no 3.lug': 'part p : pott\npart j : jack\n' });
  const checked = spawnSync(process.execPath, [join(root, 'dist/lugwork.mjs'), 'check', 'no 3.lug'], {
    cwd: folder,
    encoding: 'utf8',
  });
  const found = checked.stdout.split('\n').flatMap((line) => {
    const match = pattern.exec(line);
    return match === null ? [] : [match.slice(1, 6)];
  });
  expect(found[0]).toEqual(['no 3.lug', '1', '10', 'error', expect.stringMatching(/^[a-z-]+$/)]);
  expect(found).toHaveLength(checked.stdout.match(/^no 3\.lug:/gm)!.length);
});

test('with the attributes alone git shows the lines of a circuit', () => {
  const { folder, git } = repositoryWith({
    '.gitattributes': read('.gitattributes'),
    'no-3.lug': 'part p : pot\n',
  });
  writeFileSync(join(folder, 'no-3.lug'), 'part p : pot 250k\n');
  expect(git('check-attr', 'text', 'no-3.lug')).toContain('text: set');
  expect(git('diff')).toContain('-part p : pot\n+part p : pot 250k\n');
});
