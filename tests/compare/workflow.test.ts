/** The workflow in examples/ci: its steps run in a real repository, as a build runs them, and its actions are the platform's own. */
import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { commentMarker } from '../../server/command/folders/page-markdown.js';
import { read, root } from '../harness/checkout.js';
import { repositoryWith } from '../harness/repository.js';
import { base } from './cases.js';

const text = read('examples/ci/wiring.yml');

/** The commands of a step, by its name. */
function stepNamed(name: string): string {
  const step = text.slice(text.indexOf(`- name: ${name}\n`));
  const line = /^ +run: (?!\|)(.*)$/m.exec(step);
  const block = /^( +)run: \|\n((?:\1 {2}.*\n)+)/m.exec(step);
  // The step's own command is the first that follows its name.
  if (block === null || (line !== null && line.index < block.index)) return line![1]!;
  return block[2]!.replaceAll(`\n${block[1]!}  `, '\n').trim();
}

const { folder, git } = repositoryWith({
  'circuits/no-42.lug': base('two'),
  'circuits/no 41 $(touch owned).lug': base('one'),
  'bin/npx': `#!/bin/sh\nshift\nexec "${process.execPath}" "${join(root, 'dist/lugwork.mjs')}" "$@"\n`,
});
chmodSync(join(folder, 'bin/npx'), 0o755);

function step(name: string, env: NodeJS.ProcessEnv = {}) {
  const { status, stdout, stderr } = spawnSync('bash', ['-eo', 'pipefail', '-c', stepNamed(name)], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, PATH: `${join(folder, 'bin')}:${process.env['PATH']}`, ...env },
  });
  return { code: status, out: stdout, err: stderr };
}

git('commit', '-qam', 'An executable command');
const first = git('rev-parse', 'HEAD').trim();

test('names no action but the platform’s own', () => {
  const actions = [...text.matchAll(/uses: (\S+)/g)].map(([, name]) => name!);
  expect(actions.filter((name) => !/^(actions|github)\//.test(name))).toEqual([]);
  // What comes from the pull request reaches a shell only as a variable.
  expect([...text.matchAll(/run: .*\$\{\{/g)]).toEqual([]);
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
    writeFileSync(
      join(folder, 'bin/gh'),
      `#!/bin/sh\necho "$@" >> "$CALLS"\nif [ "$2" = --paginate ]; then echo '${found}'; fi\n`,
    );
    chmodSync(join(folder, 'bin/gh'), 0o755);
    const calls = join(folder, 'bin/calls');
    writeFileSync(calls, '');
    expect(step('Comment', { NUMBER: '7', GITHUB_REPOSITORY: 'alder-lane/circuits', CALLS: calls })).toMatchObject({ code: 0 });
    return readFileSync(calls, 'utf8');
  };
  expect(ask('')).toMatch(
    /^api --paginate repos\/alder-lane\/circuits\/issues\/7\/comments .*\npr comment 7 --body-file comment\.md\n$/,
  );
  expect(ask('4711')).toContain('api --method PATCH repos/alder-lane/circuits/issues/comments/4711 --field body=@comment.md');
  // What the step looks for is what the comment begins with.
  expect(text).toContain(`startswith("${commentMarker}")`);
});

test('with a baseline beside them, adopted faults pass', () => {
  execFileSync(join(folder, 'bin/npx'), ['lugwork', 'check', '--write-baseline', 'known.json', 'circuits'], { cwd: folder });
  expect(step('Check the circuits').code).toBe(0);
});
