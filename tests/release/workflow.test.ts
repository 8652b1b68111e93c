/** The workflow of the project's own checks: three systems, the supported versions of Node.js, steps that exist. */
import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { read, root } from '../harness/checkout.js';
import { nodeVersions } from './nodes.js';

const text = read('.github/workflows/tests.yml');

test('it runs on three systems, with each version of Node.js in which the packages are tried', () => {
  expect(/os: \[(.*)\]/.exec(text)![1]!.split(', ')).toEqual(['ubuntu-latest', 'macos-latest', 'windows-latest']);
  const asked = /node: \[(.*)\]/
    .exec(text)![1]!
    .split(', ')
    .map((version) => version.replaceAll("'", ''));
  expect(asked).toHaveLength(nodeVersions.length);
  for (const [index, version] of asked.entries()) expect(nodeVersions[index]).toMatch(new RegExp(`^${version}(\\.|$)`));
});

test('every script that it calls is there', () => {
  const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
  const called = [...text.matchAll(/npm (?:run )?(?!ci)([a-z:]+)/g)].map(([, name]) => name!);
  expect(called).toEqual(expect.arrayContaining(['test', 'build']));
  expect(called.filter((name) => scripts[name] === undefined && !text.includes(`(\`npm run ${name}\`)`))).toEqual([]);
});

test('the examples pass as its last step checks them', () => {
  const [, commands] = /- name: Check the examples\n +run: \|\n([^]*)$/.exec(text)!;
  const run = spawnSync('bash', ['-e', '-c', commands!], { cwd: root, encoding: 'utf8' });
  expect({ code: run.status, err: run.stderr }, run.stdout).toEqual({ code: 0, err: '' });
});
